// SPDX-License-Identifier: AGPL-3.0-or-later
// How far the probability of fracture depends on the mesh. It is followed as the risk R = -ln(1 - P), which
// adds over the body and grows with stress as stress^m: an error of 0.3 % in stress is one of 3 % in R at
// m = 10.
#pragma once

#include <vector>

#include "solver/result/result.hpp"

namespace crownproof {

/// The risk that all flaw populations make together.
double total_risk(const FractureProbability& fracture);

/// Risk of each bite as the mesh of `result` shows it; empty if the material allows no probability.
std::vector<double> fracture_risks(const Model& model, const Result& result);

/// Gives the outlook of each bite its band from the risks of `result.passes`, by the rules for peaks. One
/// mesh alone gets a rule of thumb, 1 % times the largest modulus: crowns of about 140 000 cells changed by
/// 0.5 to 3.6 % at m = 10 when they got five times the cells.
void judge_fracture_settling(Result& result);

}  // namespace crownproof
