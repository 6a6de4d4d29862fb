// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/material/porosity.hpp"

#include <cmath>

#include <fmt/format.h>

#include "mesh/model_error.hpp"

namespace crownproof {
namespace {

void check(const PorosityLaw& law, double porosity, PoreArrangement arrangement) {
  if (arrangement == PoreArrangement::layer_aligned)
    throw ModelError(
        "The pores lie in the layer planes. Porosity laws hold for pores spread evenly in all directions and "
        "would understate the loss across the layers; use a strength measured across the layers instead.");
  if (!(porosity >= 0 && porosity <= law.largest_porosity))
    throw ModelError(
        fmt::format("Porosity {:.3g} lies outside the range of the law '{}': 0 to {} (parts of one).",
                    porosity, law.name, law.largest_porosity));
}

}  // namespace

const std::vector<PorosityLaw>& stiffness_laws() {
  static const std::vector<PorosityLaw> laws{
      {"exponential", "E = E0 exp(-b P)", 3.4, 0.45,
       "Spriggs 1961, J. Am. Ceram. Soc. 44:628; b = 3.4 from biscuit-sintered 3Y zirconia at 80 to 85 % "
       "density "
       "(Kosmac et al.), one data set: partly sintered necks"},
      {"power", "E = E0 (1 - P)^k", 2.0, 0.3,
       "Coble & Kingery 1956, J. Am. Ceram. Soc. 39:377 (spherical pores; from memory)"},
      {"closed_pores", "E = E0 exp(-c P / (1 - P))", 2.0, 0.1,
       "Pabst & Gregorova 2003-2006 (closed pores; from memory); overstates stiffness of partly sintered "
       "bodies"}};
  return laws;
}

const PorosityLaw& strength_law() {
  static const PorosityLaw law{
      "ryshkewitch_duckworth", "s = s0 exp(-n P)", 5.0, 0.45,
      "Ryshkewitch 1953 and Duckworth 1953, J. Am. Ceram. Soc. 36:65, 68; n = 5, range 3.5 to 7"};
  return law;
}

double stiffness_ratio(StiffnessLaw kind, double porosity, PoreArrangement arrangement, double constant) {
  const PorosityLaw& law = stiffness_laws()[static_cast<std::size_t>(kind)];
  check(law, porosity, arrangement);
  const double c = constant > 0 ? constant : law.constant;
  switch (kind) {
    case StiffnessLaw::exponential:
      return std::exp(-c * porosity);
    case StiffnessLaw::power:
      return std::pow(1 - porosity, c);
    case StiffnessLaw::closed_pores:
      return std::exp(-c * porosity / (1 - porosity));
  }
  return 1;
}

double strength_ratio(double porosity, PoreArrangement arrangement, double constant) {
  check(strength_law(), porosity, arrangement);
  return std::exp(-(constant > 0 ? constant : strength_law().constant) * porosity);
}

}  // namespace crownproof
