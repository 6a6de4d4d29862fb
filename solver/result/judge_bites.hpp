// SPDX-License-Identifier: AGPL-3.0-or-later
// The verdicts on the finest mesh: tension, probability of fracture, both together.
#pragma once

#include <vector>

#include "solver/result/report.hpp"

namespace crownproof {

struct Bite;
struct BiteFields;
struct Requirement;
struct StressField;
struct StudiedBody;

/// One bite and its stress.
struct SolvedBite {
  const Bite& bite;
  const BiteFields& fields;
  const StressField& stress;
};

/// Name, verdicts and probabilities of each bite from the last pass of `passes`, whose peaks have their
/// bands. How they were solved is left to the caller.
std::vector<BiteReport> judge_bites(const StudiedBody& body, const Requirement& requirement,
                                    const std::vector<SolvedBite>& bites, const std::vector<Pass>& passes);

}  // namespace crownproof
