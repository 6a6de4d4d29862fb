// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/studied_body.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "mesh/model_error.hpp"
#include "mesh/shape/domain.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"

namespace crownproof {

const MaterialStrength& StudiedBody::strength() const {
  return *material.material.strength;
}

const std::string& region_under_study(const Model& model) {
  return model.domain->outer_region;
}

const RegionMaterial& material_under_study(const Model& model) {
  const std::string& region = region_under_study(model);
  const auto found = std::find_if(model.materials.begin(), model.materials.end(),
                                  [&](const RegionMaterial& m) { return m.region == region; });
  if (found == model.materials.end()) throw ModelError(fmt::format("The {} has no material.", region));
  if (!found->material.strength)
    throw ModelError(fmt::format(
        "The material of the {} ('{}') has no strength, so no verdict can be given; add its characteristic "
        "strength in MPa.",
        region, found->material.name));
  return *found;
}

}  // namespace crownproof
