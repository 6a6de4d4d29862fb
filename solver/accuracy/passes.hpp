// SPDX-License-Identifier: AGPL-3.0-or-later
// The sequence of meshes: what each one showed, when to stop, and what the next will be and cost.
#pragma once

#include <vector>

#include "solver/accuracy/error_estimate.hpp"
#include "solver/accuracy/pass.hpp"
#include "solver/accuracy/refine.hpp"

namespace crownproof {

struct Model;
struct StudiedBody;
struct TetMesh;

/// The first mesh. Without a wanted accuracy it is a scouting mesh with about a third of the cells: no run
/// knows one mesh only, and what changes to the mesh that was asked for tells how far that can be trusted.
RefinePlan first_plan(const Model& model);

/// The mesh that was asked for, after the scouting mesh, with finer cells where that found the tensions that
/// may decide. `scouted`: the scouting mesh.
RefinePlan asked_plan(const Model& model, const TetMesh& scouted, const std::vector<Pass>& passes);

/// Notes the peaks of a mesh as they are seen on it alone (`peaks`: one list a bite), and its error.
Pass pass_of(const Model& model, const StudiedBody& body, const std::vector<std::vector<ZonePeak>>& peaks,
             const std::vector<ErrorEstimate>& errors, const RefinePlan& plan);

/// Whether a finer mesh is to be made after `passes`, whose last has its peaks with their bands, and if not,
/// why.
Stop why_stop(const Model& model, const std::vector<Pass>& passes);

/// The next mesh: about 1.8 to 2.2 times the cells, as far as max_cells and memory allow. Around the deciding
/// peaks cells shrink faster than elsewhere, by about the 1.3 that the grid convergence index wants. `share`:
/// see refine.
RefinePlan next_plan(const Model& model, const TetMesh& mesh, const std::vector<Pass>& passes,
                     const std::vector<double>& share);

/// What the mesh of a plan will take, GiB.
double memory_of_plan_GiB(const Model& model, const RefinePlan& plan);

}  // namespace crownproof
