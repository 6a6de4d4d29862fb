// SPDX-License-Identifier: AGPL-3.0-or-later
// Bench specimens as shapes: mesh, supports and load, so that the stress of a test comes from the same
// solver, and its effective volume from the same integrator, as those of a crown. Frictionless rollers, rings
// and balls.
#pragma once

#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/held_flags.hpp"
#include "solver/material/tensor.hpp"
#include "solver/stress/region_stress.hpp"

namespace crownproof {

struct BenchSpecimen;

/// A specimen ready to be solved. Parts cut off by symmetry are counted by `copies`.
struct SpecimenProblem {
  TetMesh mesh;  ///< tensile face z = 0; its faces are those of the whole specimen, without the cuts
  HeldFlags held;
  Eigen::VectorXd load;        ///< 3 n_nodes, N
  int copies = 1;              ///< the whole specimen is so many times the mesh
  Vec3 middle = Vec3::Zero();  ///< place of the formula's stress, on the tensile face
};

/// Bars (a quarter, overhang a twelfth of the span; line forces under the rollers), ring on ring (a quarter,
/// line loads), piston on three balls (whole; uniform pressure under the piston, balls as small patches of
/// even pressure), tension and compression blocks (an eighth, frictionless platens). `layers`: cells through
/// the thickness. Throws ModelError for an impossible specimen.
SpecimenProblem specimen_problem(const BenchSpecimen& specimen, double load_N, int layers = 4);

/// Solves it for one material. Throws ModelError if the solver does not converge.
RegionStress specimen_stress(const SpecimenProblem& problem, const Stiffness& stiffness);

}  // namespace crownproof
