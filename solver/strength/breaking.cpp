// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/breaking.hpp"

#include <cassert>
#include <limits>

#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {

bool layers_are_stronger(double in_layer_MPa, double across_layer_MPa) {
  return across_layer_MPa > in_layer_MPa;
}

bool layers_are_stronger(const RegionMaterial& m) {
  const MaterialStrength& strength = *m.material.strength;
  return m.layered && strength.across_layer &&
         layers_are_stronger(strength.in_layer.characteristic_MPa, strength.across_layer->characteristic_MPa);
}

double Breaking::safety_factor() const {
  return tension_MPa > 0 ? strength_MPa / tension_MPa : std::numeric_limits<double>::infinity();
}

Tension tension_of(const RegionMaterial& material, const Voigt& stress) {
  Tension tension{.principal = principal_stress(stress).values[0]};
  if (!material.layered) return tension;
  const LayerStress layer = layer_stress(stress, material.axes.col(2));
  tension.in_layer = layer.in_layer_MPa;
  tension.across_layer = layer_plane_tension(layer.opening_MPa, layer.shear_MPa, material.layer_planes);
  tension.pressed_shut = pressed_shut(layer.opening_MPa, layer.shear_MPa);
  return tension;
}

double body_tension(const RegionMaterial& material, const Tension& tension) {
  return layers_are_stronger(material) ? tension.in_layer : tension.principal;
}

Breaking weakest_way(const RegionMaterial& material, const Tension& tension) {
  assert(material.material.strength);
  const MaterialStrength& strength = *material.material.strength;
  const Breaking breaks{body_tension(material, tension), strength.in_layer.judged_MPa(),
                        Mechanism::breaks_across_body};
  if (!material.layered || !strength.across_layer) return breaks;
  const Breaking gives{
      tension.across_layer, strength.across_layer->judged_MPa(),
      tension.pressed_shut ? Mechanism::slides_between_layers : Mechanism::opens_between_layers};
  return gives.safety_factor() < breaks.safety_factor() ? gives : breaks;
}

}  // namespace crownproof
