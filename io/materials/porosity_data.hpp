// SPDX-License-Identifier: AGPL-3.0-or-later
// Porosity as it is written in a material: how dense, by which laws, how the pores lie.
#pragma once

#include <optional>
#include <string>

#include "io/fields/field.hpp"
#include "solver/material/porosity.hpp"

namespace crownproof {

/// The material's constants and strengths are those of the dense body; the laws take them down.
struct PorosityData {
  double relative_density = 1;
  StiffnessLaw stiffness_law = StiffnessLaw::exponential;
  std::string strength_law = "ryshkewitch_duckworth";
  std::optional<PoreArrangement> pores;  ///< must be given for a layered material
  std::optional<double> stiffness_constant, strength_constant;
};

/// The keys; reading refuses densities outside a law's range and layer-aligned pores.
Section<PorosityData> porosity_section();

/// What is left of stiffness and of strength, parts of one.
double stiffness_left(const PorosityData& porosity);
double strength_left(const PorosityData& porosity);

/// What was done and how far the laws reach, in words.
std::string porosity_words(const PorosityData& porosity);

}  // namespace crownproof
