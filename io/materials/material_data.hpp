// SPDX-License-Identifier: AGPL-3.0-or-later
// A material as it is written in a materials file or in a case: constants, strength, and where they come
// from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/fields/field.hpp"
#include "io/materials/porosity_data.hpp"
#include "io/materials/strength_data.hpp"
#include "solver/material/material.hpp"
#include "solver/model/region_material.hpp"

namespace crownproof {

/// Layer plane isotropic; names as in solver/material/material.hpp.
struct TransverseData {
  double youngs_modulus_in_layer_GPa = 0, youngs_modulus_across_layers_GPa = 0;
  double poisson_ratio_in_layer = 0, poisson_ratio_across_layers = 0;
  double shear_modulus_across_layers_GPa = 0;
};

/// Nine constants in material axes 1, 2, 3; axis 3 is the layer normal.
struct OrthotropicData {
  double youngs_modulus_1_GPa = 0, youngs_modulus_2_GPa = 0, youngs_modulus_3_GPa = 0;
  double poisson_ratio_12 = 0, poisson_ratio_13 = 0, poisson_ratio_23 = 0;
  double shear_modulus_12_GPa = 0, shear_modulus_13_GPa = 0, shear_modulus_23_GPa = 0;
};

/// How sure a value is, in plain words.
enum class Certainty { published, computed, from_memory, assumed };

/// Where values come from.
struct Evidence {
  std::vector<Placed<std::string>> of;  ///< the keys it supports, e.g. strength.characteristic_MPa
  std::string source;
  std::string specimen, environment, note;
  Certainty certainty = Certainty::published;
};

struct MaterialData {
  std::string name;
  std::string file;  ///< where it is written, for messages; "" for inline
  std::string description;
  std::string group;
  bool layered = false;
  std::optional<double> youngs_modulus_GPa, poisson_ratio;  ///< isotropic
  std::optional<TransverseData> transversely_isotropic;
  std::optional<OrthotropicData> orthotropic;
  std::optional<StrengthData> strength;                ///< of a layered material: within the layers
  std::optional<StrengthData> strength_across_layers;  ///< layered materials only
  std::optional<FatigueData> fatigue;
  std::optional<PorosityData> porosity;
  std::optional<double> density_g_per_cm3, fracture_toughness_MPa_sqrt_m;  ///< shown, not used
  std::vector<Evidence> evidence;
};

/// The keys of a material. Reading checks that the elastic constants are those of a real material and says
/// which condition fails.
const Section<MaterialData>& material_section();

/// The same material with the values of the porous body in place of those of the dense one, and `porosity`
/// kept for its words; unchanged without porosity.
MaterialData with_porous_values(MaterialData material);

/// Constants in MPa, taken down by porosity if there is any.
ElasticConstants elastic_constants(const MaterialData& material);

/// The material as the solver sees it.
Material to_material(const MaterialData& material);

/// "published", "computed", "from memory", "assumed".
std::string certainty_name(Certainty certainty);

}  // namespace crownproof
