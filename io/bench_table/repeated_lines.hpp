// SPDX-License-Identifier: AGPL-3.0-or-later
// Specimens that may have been entered twice.
#pragma once

#include <vector>

#include "io/bench_table/bench_header.hpp"
#include "io/bench_table/bench_row.hpp"

namespace crownproof {

/// Blocks of lines that repeat others word for word, and numbers of specimens that are there twice in a
/// group.
std::vector<Remark> repeated_lines(const BenchTable& table, const std::vector<BenchRow>& rows);

}  // namespace crownproof
