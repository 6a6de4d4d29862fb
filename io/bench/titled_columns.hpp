// SPDX-License-Identifier: AGPL-3.0-or-later
// What each title of a header stands for.
#pragma once

#include "io/bench/bench_header.hpp"

namespace crownproof {

/// The table with the columns that `header` names. Throws UserError for titles that name a column twice or
/// nearly, with a unit of another kind, or that would hide how tests ended. Whether units are there is not
/// asked yet.
BenchTable with_columns(BenchTable table, const TableLine& header);

}  // namespace crownproof
