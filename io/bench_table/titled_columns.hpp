// SPDX-License-Identifier: AGPL-3.0-or-later
// What each title of a header stands for.
#pragma once

#include "io/bench_table/bench_header.hpp"

namespace crownproof {

/// How many columns a line names; 0 where there is none of loads or strengths, or a number, so that it is no
/// header.
std::size_t columns_named(const TableLine& line);

/// The table with the columns that `header` names. Throws UserError for titles that name a column twice or
/// nearly, with a unit of another kind, or that would hide how tests ended. Whether units are there is not
/// asked yet.
BenchTable with_columns(BenchTable table, const TableLine& header);

}  // namespace crownproof
