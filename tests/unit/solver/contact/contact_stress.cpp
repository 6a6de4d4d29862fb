// SPDX-License-Identifier: AGPL-3.0-or-later
// On a flat block the closed form is that of the half-space (tests of half_space_patch); with a recovered
// stress that holds nothing else, or only a smooth rest, the rim must show their sum.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <memory>

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/contact/contact_stress.hpp"
#include "solver/contact/half_space_patch.hpp"
#include "solver/contact/surface_feet.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/region_surface.hpp"
#include "solver/stress/region_stress.hpp"

using namespace crownproof;

namespace {

constexpr double radius = 0.5, force = 200, nu = 0.3;

/// A block with its upper face at z = 0.
TetMesh block() {
  return box_mesh({grid_lines(-2, 2, 16), grid_lines(-2, 2, 16), grid_lines(-2, 0, 8)});
}

PressedPatch patch_in_the_middle() {
  return {.centre = Vec3::Zero(),
          .radius_mm = radius,
          .force_N = force,
          .shape = PressureShape::hertz,
          .wall_mm = 2};
}

ContactStress contacts_on(const TetMesh& mesh) {
  Contact contact;
  contact.radius_mm = radius;
  const auto feet = std::make_shared<const SurfaceFeet>(
      mesh, 0, region_surface(mesh, mesh.region_names[0]).outside, std::vector<Bite>{{"clench", {contact}}});
  return {feet, {patch_in_the_middle()}, nu};
}

/// A bending stress that grows with x, beside the closed form.
Voigt bending(const Vec3& at) {
  Voigt s = Voigt::Zero();
  s[0] = 20 + 10 * at.x();
  return s;
}

RegionStress recovered(const TetMesh& mesh, const ContactStress& contacts, bool bent) {
  RegionStress stress;
  stress.nodes.resize(1), stress.stress.resize(1), stress.local.resize(1);
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    stress.nodes[0].push_back(n);
    stress.local[0].push_back(n);
    const Voigt rest = bent ? bending(mesh.nodes[n]) : Voigt(Voigt::Zero());
    stress.stress[0].push_back(contacts(mesh.nodes[n]) + rest);
  }
  return stress;
}

}  // namespace

TEST_CASE("Close to a contact on a flat face the stress is that of the half-space", "[contact_stress]") {
  const TetMesh mesh = block();
  const ContactStress contacts = contacts_on(mesh);
  const AxialStress want = patch_stress(PressureShape::hertz, radius, force, 0.6, 0.3, nu);
  const Voigt found = contacts(Vec3(0, 0.6, -0.3));
  CHECK(found[1] == Approx(want.radial));
  CHECK(found[0] == Approx(want.hoop));
  CHECK(found[2] == Approx(want.axial));
  CHECK(found[3] == Approx(-want.shear));  // y outward, z upward: the formula's axis points down
  CHECK(contacts(Vec3(0, 0, -0.2))[2] ==
        Approx(patch_stress(PressureShape::hertz, radius, force, 0, 0.2, nu).axial));
  CHECK(contacts(Vec3(1.9, 1.9, -0.5)).norm() == 0);  // faded out
}

TEST_CASE("Round the rim stand the closed form and the smooth rest", "[contact_stress]") {
  const TetMesh mesh = block();
  const ContactStress contacts = contacts_on(mesh);
  const double alone = (1 - 2 * nu) * force / (2 * M_PI * radius * radius);
  for (const bool bent : {false, true}) {
    double highest = 0;
    for (const RimPoint& rim : contacts.rim_points(recovered(mesh, contacts, bent), 0)) {
      const double r = std::hypot(rim.at.x(), rim.at.y());
      CHECK(r >= radius);
      CHECK(std::abs(rim.stress[2]) < 1e-6 * alone);  // a free surface
      if (std::abs(rim.at.y()) < 1e-6 && rim.at.x() > 0) {
        const double rest = bent ? bending(rim.at)[0] : 0;
        CHECK(rim.stress[0] == Approx(alone * std::pow(radius / r, 2) + rest).epsilon(0.02));
      }
      highest = std::max(highest, rim.stress[0]);
    }
    CHECK(highest == Approx(alone + (bent ? 20 + 10 * radius : 0)).epsilon(0.02));
  }
}
