// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/breaking.hpp"

#include <cassert>
#include <limits>

#include "solver/model/strength.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {

double Breaking::safety_factor() const {
  return tension_MPa > 0 ? strength_MPa / tension_MPa : std::numeric_limits<double>::infinity();
}

Tension tension_of(const RegionMaterial& material, const Voigt& stress) {
  Tension tension{principal_stress(stress).values[0], 0, 0};
  if (!material.layered) return tension;
  const LayerStress layer = layer_stress(stress, material.axes.col(2));
  tension.in_layer = layer.in_layer_MPa;
  tension.across_layer = layer_plane_tension(layer.opening_MPa, layer.shear_MPa);
  return tension;
}

Breaking weakest_way(const RegionMaterial& material, const Tension& tension) {
  assert(material.material.strength);
  const MaterialStrength& strength = *material.material.strength;
  const Breaking breaks{material.layered ? tension.in_layer : tension.principal,
                        strength.in_layer.characteristic_MPa, Mechanism::breaks_across_body};
  if (!material.layered || !strength.across_layer) return breaks;
  const Breaking opens{tension.across_layer, strength.across_layer->characteristic_MPa,
                       Mechanism::opens_between_layers};
  return opens.safety_factor() < breaks.safety_factor() ? opens : breaks;
}

}  // namespace crownproof
