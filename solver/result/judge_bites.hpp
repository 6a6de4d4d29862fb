// SPDX-License-Identifier: AGPL-3.0-or-later
// The verdicts on the finest mesh: tension, probability of fracture, both together.
#pragma once

#include <vector>

#include "solver/result/report.hpp"

namespace crownproof {

struct Bite;
struct BiteFields;
struct Requirement;
struct StudiedBody;

/// Name, verdicts and probabilities of each bite from the last pass of `passes`, whose peaks have their
/// bands. `asked` and `fields`: one entry a bite. How they were solved is left to the caller.
std::vector<BiteReport> judge_bites(const StudiedBody& body, const Requirement& requirement,
                                    const std::vector<Bite>& asked, const std::vector<BiteFields>& fields,
                                    const std::vector<Pass>& passes);

}  // namespace crownproof
