// SPDX-License-Identifier: AGPL-3.0-or-later
// What is known at every node of the finest mesh: large, and needed only to draw or to write it.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/material/tensor.hpp"
#include "solver/stress/bite_fields.hpp"

namespace crownproof {

class SurfaceFeet;
struct Model;
struct StudiedBody;

struct Fields {
  TetMesh mesh;
  HeldFlags held;
  std::vector<Stiffness> region_stiffness;  ///< in the axes of the shape
  int copies = 1;  ///< the whole body is so many times the mesh (planes of symmetry of a specimen)
  std::vector<BiteFields> bites;
  std::shared_ptr<const SurfaceFeet> feet;  ///< near the contacts; nothing on a bench specimen
  std::vector<std::string>
      withheld;  ///< regions whose pointwise stress must not be shown (nearly incompressible)
};

/// The body under study as these fields have it, without zones, which each bite has of its own; keeps
/// references to both.
StudiedBody studied_body(const Model& model, const Fields& fields);

}  // namespace crownproof
