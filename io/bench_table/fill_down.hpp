// SPDX-License-Identifier: AGPL-3.0-or-later
// Empty cells that merged cells leave: of a merged cell a table keeps only the first.
#pragma once

#include "io/bench_table/bench_header.hpp"

namespace crownproof {

/// The table with the cells filled that merged ones left empty: groups if each is named in one line only;
/// kinds of test and sizes if they stand in the first line of each group, or of the table, and nowhere else.
/// Throws UserError for an empty group that cannot come from a merged cell.
BenchTable filled_down(BenchTable table);

}  // namespace crownproof
