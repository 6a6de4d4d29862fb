// SPDX-License-Identifier: AGPL-3.0-or-later
// Bench tests as a comma-separated table, one specimen a line, read strictly: every mistake has its place.
//
//   group,test,width_mm,thickness_mm,span_mm,load_N,end
//   printed,3_point_bending,4.02,1.21,16,231.5,broken
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "io/text/user_error.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/compare_groups.hpp"

namespace crownproof {

/// How a test ended: broken by the flaws under study; stopped at the load cell's limit (or not broken); or
/// broken for another reason (a grip, a chip, another flaw). The last two are suspended in the fit.
enum class BenchEnd { broken, suspended, broken_otherwise };

struct BenchRow {
  std::string group;
  std::optional<BenchSpecimen> specimen;  ///< if a test and its sizes are given
  double strength_MPa = 0;                ///< given, or from load and sizes by the standard's formula
  std::optional<double> load_cell_limit_N;
  BenchEnd end = BenchEnd::broken;
  std::string flaw;  ///< empty: not told
  Place place;
};

struct BenchFile {
  std::string file;
  std::vector<BenchRow> rows;
};

/// Columns: strength_MPa or load_N (then test and sizes too); optional group, test, the sizes of a bench test
/// (width_mm ... poisson_ratio), load_cell_limit_N, end, flaw. Lines that start with # are comments. Throws
/// UserError.
BenchFile read_bench_file(const std::filesystem::path& file);
BenchFile parse_bench_text(const std::string& text, const std::string& file);

/// Rows of one group as specimens of a fit.
Group bench_group(const BenchFile& bench, const std::string& name);

/// Group names in order of appearance.
std::vector<std::string> bench_group_names(const BenchFile& bench);

}  // namespace crownproof
