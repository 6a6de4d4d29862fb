// SPDX-License-Identifier: AGPL-3.0-or-later
// The main flow of the program: shape -> mesh -> displacements -> stress -> error -> finer mesh ... ->
// verdict.
#pragma once

#include <functional>

namespace crownproof {

struct Model;
struct Result;

/// The stages of a pass, in their order; the last two only once the meshes are fine enough, `error` only
/// before another mesh.
enum class StageName { mesh, stiffness, solve, stress, verdict, error, fracture };

/// What begins, and from the second mesh on what it will cost.
struct Stage {
  StageName name = StageName::mesh;
  int pass = 1;             ///< number of the mesh
  int predicted_cells = 0;  ///< of the mesh, and what follows from it; 0 for the first
  double predicted_memory_GiB = 0;
  double work_ratio = 0;  ///< cells over those of the mesh before
};

/// Told at the start of each stage; may throw to stop the run.
using Progress = std::function<void(const Stage& stage)>;

/// Poses the loads on the first mesh, without solving: what simulate() would refuse of them is refused here.
/// Throws GeometryError, ModelError, TooLittleMemory. A bench specimen has no loads that could be refused.
void check_loads(const Model& model);

/// Computes one case. Pure: no files, no terminal, no clock.
/// Throws GeometryError, ModelError, NoConvergence (with the solver's diagnosis), or TooLittleMemory.
Result simulate(const Model& model, const Progress& progress = {});

}  // namespace crownproof
