// SPDX-License-Identifier: AGPL-3.0-or-later
// Columns of a bench table that are not read, and what leaving them out may hide.
#pragma once

#include "io/bench_table/bench_header.hpp"

namespace crownproof {

/// Tells of columns without a title, and of one that may hold the groups where none is named 'group'. Throws
/// UserError for one that says how tests ended where none is named 'end' (whole specimens would count as
/// broken), and for decimals that a comma cut off.
std::vector<Remark> left_out_columns(const BenchTable& table);

}  // namespace crownproof
