// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/compared_strength.hpp"

#include <cmath>

#include "solver/model/strength.hpp"

namespace crownproof {

double strength_value(const Strength& strength, StrengthBasis basis) {
  if (basis == StrengthBasis::characteristic) return strength.characteristic_MPa;
  return strength.characteristic_MPa * std::pow(-std::log(exceeding_share), 1 / strength.weibull_modulus);
}

StrengthBasis basis_for(const Strength& strength, StrengthBasis wished) {
  return strength.weibull_modulus > 0 ? wished : StrengthBasis::characteristic;
}

std::optional<StrengthLoss> loss_in_years(const MaterialStrength& strength, const Chewing& chewing) {
  if (!(chewing.years > 0) || !strength.fatigue) return std::nullopt;
  return strength_loss(*strength.fatigue, strength.in_layer.characteristic_MPa, chewing);
}

bool years_unknown(const MaterialStrength& strength, const Chewing& chewing) {
  return chewing.years > 0 && !strength.fatigue;
}

MaterialStrength with_compared(MaterialStrength strength, const Requirement& requirement) {
  const auto loss = loss_in_years(strength, requirement.chewing);
  const double left = loss ? loss->factor : 1;
  const auto compared = [&](const Strength& s) {
    return left * strength_value(s, basis_for(s, requirement.compared_with));
  };
  strength.in_layer.compared_MPa = compared(strength.in_layer);
  if (strength.across_layer) strength.across_layer->compared_MPa = compared(*strength.across_layer);
  return strength;
}

}  // namespace crownproof
