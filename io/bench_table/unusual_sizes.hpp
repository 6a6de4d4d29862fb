// SPDX-License-Identifier: AGPL-3.0-or-later
// Sizes that can be computed with but that hardly anybody tests: mostly slips of the pen.
#pragma once

#include <vector>

#include "io/bench_table/bench_row.hpp"
#include "io/bench_table/remark.hpp"

namespace crownproof {

/// Questions about small discs, bars on edge and short spans. They change nothing.
std::vector<Remark> unusual_sizes(const BenchRow& row);

}  // namespace crownproof
