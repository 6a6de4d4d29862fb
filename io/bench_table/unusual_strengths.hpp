// SPDX-License-Identifier: AGPL-3.0-or-later
// Strengths that can be computed with but that hardly any ceramic has: mostly other units or slips of the
// pen.
#pragma once

#include <cstddef>
#include <vector>

#include "io/bench_table/bench_row.hpp"
#include "io/bench_table/remark.hpp"

namespace crownproof {

/// Questions about the strengths of one group, whose lines are `group`. They change nothing.
std::vector<Remark> unusual_strengths(const std::vector<BenchRow>& rows,
                                      const std::vector<std::size_t>& group);

}  // namespace crownproof
