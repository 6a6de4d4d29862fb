// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/build_requirement.hpp"

#include <fmt/format.h>

#include "io/words/names.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/strength/compared_strength.hpp"
#include "solver/strength/fracture_verdict.hpp"
#include "solver/strength/no_probability.hpp"

namespace crownproof {
namespace {

/// Why the allowed probability cannot be judged, and what to do.
std::string no_verdict_words(NoProbability why) {
  if (why == NoProbability::no_fatigue)
    return "No fatigue data (n_static, n_cyclic) are known for this material, so no probability of fracture "
           "after years follows. Leave out 'years', or give the material 'fatigue'.";
  return no_probability_words(why);
}

/// Refused before anything is computed, with the place of the key.
void check_allowed_probability(const Placed<double>& allowed, const Requirement& requirement,
                               const RegionMaterial& material) {
  if (const auto why = why_no_fracture_verdict(requirement, material))
    throw UserError(allowed.place, fmt::format("'strength.allowed_fracture_probability' cannot be judged for "
                                               "the material '{}'. {}",
                                               material.material.name, no_verdict_words(*why)));
}

void check_basis(const Placed<StrengthBasis>& asked, const RegionMaterial& material) {
  const MaterialStrength& strength = *material.material.strength;
  const auto known = [&](const Strength& s) { return basis_for(s, asked.value) == asked.value; };
  if (known(strength.in_layer) && (!strength.across_layer || known(*strength.across_layer))) return;
  throw UserError(
      asked.place,
      fmt::format("the material '{}' has a strength without 'weibull_modulus', so what 95 % of its "
                  "bench specimens exceed is not known. Give the modulus, or write "
                  "'compared_with: characteristic'.",
                  material.material.name));
}

}  // namespace

Requirement build_requirement(const StrengthCase& c, const RegionMaterial& material) {
  Requirement requirement;
  requirement.safety_factor = c.required_safety_factor;
  requirement.chewing.years = c.years;
  requirement.chewing.cycles_per_year = c.cycles_per_year;
  requirement.chewing.force_share = c.chewing_force_share;
  requirement.compared_with =
      c.compared_with ? c.compared_with->value : StrengthBasis::exceeded_by_95_percent;
  if (c.compared_with) check_basis(*c.compared_with, material);
  requirement.allowed_fracture_probability =
      c.allowed_fracture_probability ? c.allowed_fracture_probability->value : usual_allowed_probability;
  if (c.allowed_fracture_probability) {
    check_allowed_probability(*c.allowed_fracture_probability, requirement, material);
  } else if (why_no_fracture_verdict(requirement, material)) {
    requirement.allowed_fracture_probability.reset();
  } else {
    requirement.allowed_by_default = true;
  }
  return requirement;
}

void set_requirement(Model& model, const StrengthCase& strength) {
  RegionMaterial& material = model.materials.front();
  model.requirement = build_requirement(strength, material);
  material.material.strength = with_compared(*material.material.strength, model.requirement);
}

}  // namespace crownproof
