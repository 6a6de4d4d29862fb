// SPDX-License-Identifier: AGPL-3.0-or-later
// A bite with an antagonist on one mesh: the ball finds its seat, is pressed, and leaves contacts behind.
#pragma once

#include <Eigen/Core>

namespace crownproof {

class ElasticitySolver;
struct Bite;
struct ElasticConstants;
struct RegionMaterial;
struct TetMesh;

/// Presses the ball of `bite` on the outside of the body made of `material`. Fills the bite's contacts with
/// the areas found, and its antagonist's `found`. `loads` and `first_guess` (3 n_nodes): nodal forces, N, and
/// displacements to a loose tolerance, mm. Throws ModelError, naming the bite.
Bite press_antagonist(const TetMesh& mesh, const RegionMaterial& material, Bite bite,
                      const ElasticitySolver& solver, Eigen::Ref<Eigen::VectorXd> loads,
                      Eigen::Ref<Eigen::VectorXd> first_guess);

/// Radius of the area in which a ball touches a large flat body: a^3 = 3 F R k / 4, k = (1 - nu^2)/E of both
/// together (Hertz; Johnson, Contact Mechanics, 1985, eq. 4.22).
double flat_contact_radius(double force_N, double radius_mm, double compliance);

/// (1 - nu^2)/E of a body, 1/MPa; of a layered one along and within its layers.
double half_space_compliance(const ElasticConstants& body);

}  // namespace crownproof
