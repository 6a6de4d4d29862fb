// SPDX-License-Identifier: AGPL-3.0-or-later
// What in a model may keep the displacements from being found.
#pragma once

#include <string>
#include <vector>

#include "solver/elasticity/held_flags.hpp"
#include "solver/material/tensor.hpp"

namespace crownproof {

struct TetMesh;

/// Regions (names, ascending) with cells that hang together with no held degree of freedom.
std::vector<std::string> loose_regions(const TetMesh& mesh, const HeldFlags& held);

/// Poisson's ratio of the isotropic material nearest to a stiffness (Voigt's average).
double average_poisson(const Stiffness& stiffness);

/// A sentence that names a loose part, a rigid motion that the supports leave free, or a nearly
/// incompressible region; if none of them is there, says so.
std::string diagnose(const TetMesh& mesh, const std::vector<Stiffness>& region_stiffness,
                     const HeldFlags& held);

}  // namespace crownproof
