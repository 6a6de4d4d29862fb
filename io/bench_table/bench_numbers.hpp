// SPDX-License-Identifier: AGPL-3.0-or-later
// Numbers in a bench table: one decimal mark for all, units of cells and columns taken into account.
#pragma once

#include <vector>

#include "io/bench_table/bench_header.hpp"
#include "io/text/number_text.hpp"

namespace crownproof {

/// The decimal mark of a table, from all its numbers. Throws UserError where numbers contradict each other or
/// could be read either way.
DecimalMark decimal_mark(const BenchTable& table);

/// A number in N, MPa, mm or degrees, and what had to be done to read it.
struct BenchNumber {
  double value = 0;
  bool or_more = false;  ///< ">" stood before it
  std::vector<Remark> remarks = {};
};

/// Throws UserError: no number, a unit of another kind, not above zero where it must be.
BenchNumber bench_number(const TableCell& cell, const TitledColumn& column, DecimalMark mark);

}  // namespace crownproof
