// SPDX-License-Identifier: AGPL-3.0-or-later
// What only the whole table shows: names misspelt, and specimens of other kind or size in one group.
#pragma once

#include <vector>

#include "io/bench_table/bench_header.hpp"
#include "io/bench_table/bench_row.hpp"

namespace crownproof {

/// More groups than this are a column of specimen numbers named 'group', or too many for one comparison.
inline constexpr std::size_t most_groups = 50;

/// Looks at all rows (as many as lines of the table). Throws UserError for names that differ only in letter
/// case or blanks, too many groups, and groups of specimens that differ in test or, by more than half, in a
/// size; the rest is a remark.
std::vector<Remark> check_groups(const BenchTable& table, const std::vector<BenchRow>& rows);

}  // namespace crownproof
