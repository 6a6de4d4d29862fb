// SPDX-License-Identifier: AGPL-3.0-or-later
// Bench tests for other programs, with every digit: tables (CSV) of groups and of pairs, all findings as
// JSON, and what a paper says of the method. Keys carry their unit; docs/bench.md lists the files.
#pragma once

#include <string>

#include "io/bench/bench_analysis.hpp"

namespace crownproof {

/// A row for each group: counts, fit, bounds, low strengths, sizes, goodness of fit.
std::string bench_groups_csv(const BenchFindings& findings);

/// A row for each pair of groups: every p, that after Holm's correction, and the verdict.
std::string bench_pairs_csv(const BenchFindings& findings);

/// Everything, specimens included.
std::string bench_json(const BenchFindings& findings);

/// A paragraph on the methods and a table of the groups, Markdown, to be edited for a paper.
std::string bench_methods_page(const BenchFindings& findings);

}  // namespace crownproof
