// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/model/method_limits.hpp"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "mesh/model_error.hpp"
#include "mesh/quality.hpp"
#include "mesh/shape/domain.hpp"
#include "solver/material/material.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/studied_body.hpp"

namespace crownproof {
namespace {

/// Ratio of stiffness between two regions above which the weaker one is hardly there.
constexpr double extreme_contrast = 1e5;
/// Below this dihedral angle the stress of a cell is rough.
constexpr double sliver_deg = 3;

double softest(const ElasticConstants& e) {
  return std::min({e.youngs_1, e.youngs_2, e.youngs_3});
}
double stiffest(const ElasticConstants& e) {
  return std::max({e.youngs_1, e.youngs_2, e.youngs_3});
}

/// The softest region beside the stiffest one, if it hardly carries load.
std::optional<MethodLimit> contrast_limit(const std::vector<RegionMaterial>& materials) {
  const auto by_softness = [](const RegionMaterial& a, const RegionMaterial& b) {
    return softest(a.material.elastic) < softest(b.material.elastic);
  };
  const auto by_stiffness = [](const RegionMaterial& a, const RegionMaterial& b) {
    return stiffest(a.material.elastic) < stiffest(b.material.elastic);
  };
  const RegionMaterial& soft = *std::min_element(materials.begin(), materials.end(), by_softness);
  const RegionMaterial& stiff = *std::max_element(materials.begin(), materials.end(), by_stiffness);
  const double ratio = stiffest(stiff.material.elastic) / softest(soft.material.elastic);
  if (ratio < extreme_contrast) return std::nullopt;
  return MethodLimit{LimitKind::extreme_contrast, soft.region, stiff.region, ratio};
}

/// Layers one cell thick are flat on purpose; elsewhere a sliver is an accident of the mesher.
bool is_layer(const Domain& domain, const std::string& region) {
  return std::any_of(domain.layers.begin(), domain.layers.end(),
                     [&](const Layer& layer) { return layer.region == region; });
}

}  // namespace

void refuse_impossible(const Model& model) {
  for (const RegionMaterial& m : model.materials) {
    const double poisson = largest_poisson(m.material.elastic);
    const bool studied = m.region == region_under_study(model);
    if (poisson >= refuse_from_poisson)
      throw ModelError(
          fmt::format("The material of the {} ('{}') has a Poisson's ratio of {:g}: practically "
                      "incompressible, and these cells "
                      "would lock. Use a value below {:g}; 0.45 is usual for soft tissue.",
                      m.region, m.material.name, poisson, withhold_from_poisson));
    if (studied && poisson >= withhold_from_poisson)
      throw ModelError(
          fmt::format("The material of the {} ('{}') has a Poisson's ratio of {:g}: from {:g} on, stress at "
                      "a point cannot be "
                      "trusted, so no verdict can be given for this body.",
                      m.region, m.material.name, poisson, withhold_from_poisson));
  }
}

std::vector<std::string> withheld_regions(const Model& model) {
  std::vector<std::string> regions;
  for (const RegionMaterial& m : model.materials)
    if (largest_poisson(m.material.elastic) >= withhold_from_poisson) regions.push_back(m.region);
  return regions;
}

std::vector<MethodLimit> limits_of(const Model& model, const MeshQuality& quality) {
  std::vector<MethodLimit> limits;
  for (const std::string& region : withheld_regions(model))
    limits.push_back({LimitKind::nearly_incompressible, region});
  if (auto contrast = contrast_limit(model.materials)) limits.push_back(*std::move(contrast));
  for (const RegionQuality& q : quality.regions)
    if (!is_layer(*model.domain, q.region) && q.smallest_dihedral_deg < sliver_deg)
      limits.push_back({.kind = LimitKind::slivers, .region = q.region, .figure = q.smallest_dihedral_deg});
  return limits;
}

}  // namespace crownproof
