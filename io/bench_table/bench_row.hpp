// SPDX-License-Identifier: AGPL-3.0-or-later
// One line of a bench table.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/bench_table/bench_end.hpp"
#include "io/bench_table/bench_header.hpp"
#include "io/text/number_text.hpp"
#include "solver/bench/bench_specimen.hpp"

namespace crownproof {

struct BenchRow {
  std::string group;
  std::optional<BenchSpecimen> specimen;  ///< if a test and its sizes are given
  double strength_MPa = 0;                ///< given, or from load and sizes by the standard's formula
  std::optional<double> load_cell_limit_N;
  BenchEnd end = BenchEnd::broken;
  std::string flaw;  ///< empty: not told
  Place place;
};

/// A row, and what had to be done to read it.
struct ReadRow {
  BenchRow row;
  bool tells_end = false;                     ///< the column 'end' is filled
  std::optional<double> strength_difference;  ///< of the strength given from that of load and sizes, relative
  std::vector<Remark> remarks = {};
};

/// The columns of the sizes that a test needs.
std::vector<std::string> needed_sizes(BenchTest test);

/// Throws UserError for cells that cannot be read, sizes that are missing, and lines that cannot be true.
ReadRow read_bench_row(const BenchTable& table, const TableLine& line, DecimalMark mark);

}  // namespace crownproof
