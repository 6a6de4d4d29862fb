// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/fracture_outlook.hpp"

#include <cassert>

#include <fmt/format.h>

namespace crownproof {
namespace {

/// Strength falls by one factor everywhere, which does to the probability what a load larger by its inverse
/// does.
LaterFracture later_fracture(const FractureProbability& now, const FatigueData& fatigue, double strength_MPa,
                             const Chewing& chewing) {
  const StrengthLoss loss = strength_loss(fatigue, strength_MPa, chewing);
  LaterFracture later;
  later.years = chewing.years;
  later.strength_left = loss.factor;
  later.probability = probability_at_load(now, 1 / loss.factor);
  later.bounds = probability_bounds_at_load(now, 1 / loss.factor);
  later.sentence = fmt::format("Probability of fracture within {:g} years of this load {:.3g} %. {}",
                               chewing.years, 100 * later.probability, loss.sentence);
  return later;
}

}  // namespace

std::optional<std::string> why_no_probability(const RegionMaterial& material) {
  for (const FlawPopulation& population :
       flaw_populations(*material.material.strength, material.layered, material.axes.col(2)))
    if (const auto why = why_no_probability(population.strength)) return why;
  return std::nullopt;
}

FractureProbability fracture_now(const TetMesh& mesh, const RegionStress& stress,
                                 const std::string& region_name, const RegionMaterial& material,
                                 const std::vector<Zone>& node_zone, int copies) {
  const auto populations =
      flaw_populations(*material.material.strength, material.layered, material.axes.col(2));
  const int region = mesh.region_index(region_name);
  return fracture_probability(mesh, recovered_field(mesh, stress, region), region, populations, node_zone,
                              copies);
}

FractureOutlook fracture_outlook(const TetMesh& mesh, const RegionStress& stress,
                                 const std::string& region_name, const RegionMaterial& material,
                                 const std::vector<Zone>& node_zone, double force_N, double safety_factor,
                                 const Chewing& chewing, int copies) {
  assert(material.material.strength);
  const MaterialStrength& strength = *material.material.strength;
  FractureOutlook outlook;
  if (const auto why = why_no_probability(material)) {
    outlook.withheld = *why;
    return outlook;
  }
  outlook.now = fracture_now(mesh, stress, region_name, material, node_zone, copies);
  outlook.loads = fracture_loads(outlook.now, force_N, safety_factor);
  outlook.curve = probability_curve(outlook.now, force_N);
  if (chewing.years <= 0) return outlook;
  if (strength.fatigue)
    outlook.later =
        later_fracture(outlook.now, *strength.fatigue, strength.in_layer.characteristic_MPa, chewing);
  else
    outlook.later_withheld =
        "No fatigue data (n_static, n_cyclic) are known for this material, so nothing is said about "
        "its strength after years.";
  return outlook;
}

}  // namespace crownproof
