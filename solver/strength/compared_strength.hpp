// SPDX-License-Identifier: AGPL-3.0-or-later
// The strength that a tension is compared with: which value of the scattering bench strength, and what years
// of chewing leave of it. A tension below the characteristic strength says little: 63.2 % of the bench
// specimens broke below that.
#pragma once

#include <optional>

#include "solver/material/strength_loss.hpp"
#include "solver/model/requirement.hpp"

namespace crownproof {

struct MaterialStrength;
struct Strength;

/// Share of the bench specimens that hold more than the lower of the two values.
inline constexpr double exceeding_share = 0.95;

/// The value of a bench strength that a basis means, MPa: s_0 (-ln 0.95)^(1/m) for exceeded_by_95_percent
/// (Weibull 1951), for which the modulus must be known.
double strength_value(const Strength& strength, StrengthBasis basis);

/// The basis that holds for a strength: without a Weibull modulus there is only the characteristic value.
StrengthBasis basis_for(const Strength& strength, StrengthBasis wished);

/// What years of chewing leave of the bench strength; nothing if no years are asked for or the material's
/// fatigue is not known.
std::optional<StrengthLoss> loss_in_years(const MaterialStrength& strength, const Chewing& chewing);

/// Years are asked for, but nothing is known of the material's fatigue: its strength then is not known.
bool years_unknown(const MaterialStrength& strength, const Chewing& chewing);

/// The same strengths, told what tensions are compared with: the value of each that the requirement asks for
/// (basis_for), times what the years leave.
MaterialStrength with_compared(MaterialStrength strength, const Requirement& requirement);

}  // namespace crownproof
