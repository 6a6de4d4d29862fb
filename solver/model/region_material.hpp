// SPDX-License-Identifier: AGPL-3.0-or-later
// What a region of the mesh is made of.
#pragma once

#include <optional>
#include <string>

#include "mesh/geometry.hpp"
#include "solver/material/layer_planes.hpp"
#include "solver/material/material.hpp"
#include "solver/model/strength.hpp"

namespace crownproof {

/// A material as the solver sees it.
struct Material {
  std::string name;
  ElasticConstants elastic;
  std::optional<MaterialStrength> strength;  ///< needed for the region under study only
  std::string note = {};  ///< what a reader of the results must know of these values; may be empty
};

/// A region of the mesh and what it is made of.
struct RegionMaterial {
  std::string region;
  Material material;
  Mat3 axes = Mat3::Identity();  ///< material axes as columns; axis 3 is the layer normal
  bool layered = false;          ///< the layer normal matters (printed ceramic)
  LayerPlanes layer_planes = {};
};

}  // namespace crownproof
