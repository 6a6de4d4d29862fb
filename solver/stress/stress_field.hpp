// SPDX-License-Identifier: AGPL-3.0-or-later
// Stress at any point of one region of a mesh, from recovered nodal values or from a formula, so that bench
// specimens and crowns go through the same strength code.
#pragma once

#include <functional>
#include <vector>

#include "mesh/geometry.hpp"
#include "solver/element/barycentric.hpp"
#include "solver/material/tensor.hpp"

namespace crownproof {

struct RegionStress;
struct TetMesh;

/// Stress (MPa) inside a cell of the region and on a named face of it. Called from several threads.
struct StressField {
  std::function<Voigt(int cell, const Barycentric&)> in_cell;
  std::function<Voigt(int face, const Barycentric&)> on_face;
};

/// Recovered nodal stress, interpolated quadratically. Keeps references to the mesh and the stress.
StressField recovered_field(const TetMesh& mesh, const RegionStress& stress, int region);

/// A formula sigma(x). Keeps a reference to the mesh.
StressField exact_field(const TetMesh& mesh, std::function<Voigt(const Vec3&)> stress_at);

/// Indices of the faces that bound a region: of its own cells, or of a neighbour's with all six nodes in it.
std::vector<int> faces_of_region(const TetMesh& mesh, int region);

}  // namespace crownproof
