// SPDX-License-Identifier: AGPL-3.0-or-later
// Bench tests as a table, one specimen a line, as spreadsheets save it. What is repaired is told; what may
// mean two things is refused with place and remedy.
//
//   group,test,width_mm,thickness_mm,span_mm,load_N,end
//   printed,3_point_bending,4.02,1.21,16,231.5,broken
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "io/bench_table/bench_row.hpp"
#include "solver/bench/compare_groups.hpp"

namespace crownproof {

struct BenchFile {
  std::string file;
  std::vector<BenchRow> rows;
  std::vector<std::string> remarks =
      {};  ///< what was done to read the table, and what in it should be looked at
};

/// Columns: strength_MPa or load_N (then test and sizes too); optional group, test, the sizes of a bench test
/// (width_mm ... poisson_ratio), load_cell_limit_N, end, flaw; others are left out. Lines that start with #
/// are comments. Throws UserError.
BenchFile read_bench_file(const std::filesystem::path& file);
BenchFile parse_bench_text(const std::string& text, const std::string& file);

/// Rows of one group as specimens of a fit.
Group bench_group(const BenchFile& bench, const std::string& name);

/// Group names in order of appearance.
std::vector<std::string> bench_group_names(const BenchFile& bench);

}  // namespace crownproof
