// SPDX-License-Identifier: AGPL-3.0-or-later
// How far the probability of fracture depends on the mesh. It is followed as the risk R = -ln(1 - P), which
// adds over the body and grows with stress as stress^m: an error of 0.3 % in stress is one of 3 % in R at
// m = 10.
#pragma once

#include <vector>

#include "solver/accuracy/pass.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/strength/fracture_probability.hpp"

namespace crownproof {

struct StressField;

/// The risk that all flaw populations make together.
double total_risk(const FractureProbability& fracture);

/// Risk of each bite as its mesh shows it; empty if the material allows no probability.
std::vector<double> fracture_risks(const StudiedBody& body, const std::vector<StressField>& bites);

/// How well the meshes let a risk be known.
struct RiskBand {
  double factor = 1;  ///< the risk lies between the one found over this and times this
  Settling settling = Settling::one_pass;
};

/// The band of a bite's risk from its logarithm on the passes, by the rules for peaks; two meshes by the
/// change to the order of 2 that the recovered stress has, with a safety factor. The contact zone's part of
/// the risk is at least as uncertain as its tension, to the power of the modulus. One mesh alone gets a rule
/// of thumb, 1 % times the largest modulus. No band is narrower than 0.5 % times that.
RiskBand risk_band(const std::vector<Pass>& passes, std::size_t bite, const FractureProbability& fracture);

}  // namespace crownproof
