// SPDX-License-Identifier: AGPL-3.0-or-later
// Which lines below a header are specimens.
#pragma once

#include "io/bench_table/bench_header.hpp"

namespace crownproof {

/// The table with the specimens of `lines`: comments and repeated headers are left out, a line of units goes
/// to the columns, cells behind the last title are dropped if they are empty. Throws UserError for lines of
/// other length, specimens that would pass for comments and columns without unit.
BenchTable with_lines(BenchTable table, std::vector<TableLine> lines, const TableLine& header);

}  // namespace crownproof
