// SPDX-License-Identifier: AGPL-3.0-or-later
// How porosity lowers stiffness and strength, by named laws with their limits. They hold for pores spread
// evenly and in all directions; pores lined up between layers are refused, because they lower strength across
// the layers by far more than any of these laws says.
#pragma once

#include <string>
#include <vector>

#include "solver/material/material.hpp"

namespace crownproof {

enum class StiffnessLaw { exponential, power, closed_pores };

enum class PoreArrangement { even, layer_aligned };

/// A law, what it is good for and where its constant comes from.
struct PorosityLaw {
  std::string name;  ///< as written in case files
  std::string formula;
  double constant = 0;  ///< customary value
  double largest_porosity = 0;
  std::string source;
};

/// Stiffness laws in the order of the enum, and the strength law.
const std::vector<PorosityLaw>& stiffness_laws();
const PorosityLaw& strength_law();

/// E(P)/E(0). `constant` replaces the customary one if above zero. Throws ModelError for porosity outside 0
/// .. the law's limit, or layer-aligned pores.
double stiffness_ratio(StiffnessLaw law, double porosity, PoreArrangement arrangement = PoreArrangement::even,
                       double constant = 0);

/// Strength(P)/strength(0), exp(-n P). Same errors.
double strength_ratio(double porosity, PoreArrangement arrangement = PoreArrangement::even,
                      double constant = 0);

}  // namespace crownproof
