// SPDX-License-Identifier: AGPL-3.0-or-later
// The body whose breaking is asked about - crown or bench specimen - as one argument of all that judges it.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "solver/material/tensor.hpp"

namespace crownproof {

struct MaterialStrength;
struct Model;
struct RegionMaterial;
struct TetMesh;
enum class Zone;

/// A view: it keeps references to the mesh, the model's material and the fields it was made from, and lives
/// no longer than they do.
struct StudiedBody {
  const TetMesh& mesh;
  int region = 0;  ///< of the mesh
  const RegionMaterial& material;
  const std::vector<Stiffness>& region_stiffness;  ///< #regions, in the axes of the shape
  std::span<const Zone> node_zone = {};            ///< #nodes, or empty: no zones
  int copies = 1;                                  ///< the whole body is so many times the mesh

  /// The same body with the zones of one bite; `zones` must outlive it.
  StudiedBody with_zones(std::span<const Zone> zones) const {
    return {mesh, region, material, region_stiffness, zones, copies};
  }
  const MaterialStrength& strength() const;  ///< of its material
  const Stiffness& stiffness() const { return region_stiffness[static_cast<std::size_t>(region)]; }
};

/// Name of the region under study: crown, specimen, ...
const std::string& region_under_study(const Model& model);

/// The material of the body under study. Throws ModelError if it has none, or no strength.
const RegionMaterial& material_under_study(const Model& model);

}  // namespace crownproof
