// SPDX-License-Identifier: AGPL-3.0-or-later
// What a case asks of the body under study, with the usual limits where it says nothing.
#pragma once

#include "io/case/case_file.hpp"

namespace crownproof {

struct Model;
struct RegionMaterial;

/// The requirement of a case on a material. Where the case leaves them out, tensions are compared with the
/// strength that 95 % of bench specimens exceed, if a Weibull modulus is known, and 5 % probability of
/// fracture are allowed, if one can be computed. Throws UserError at the key if the material cannot give what
/// is asked.
Requirement build_requirement(const StrengthCase& strength, const RegionMaterial& material);

/// Gives the model its requirement, and its first material the strengths that tensions are compared with.
void set_requirement(Model& model, const StrengthCase& strength);

}  // namespace crownproof
