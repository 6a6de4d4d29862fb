// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>
#include <numbers>

#include <Eigen/Geometry>

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/loads/contact_load.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/region_surface.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {

const double pi = std::numbers::pi;

/// A block whose top (z = 0) is loaded; cells of size h across.
TetMesh block(double h, double thickness = 1) {
  const int n = static_cast<int>(std::round(3 / h));
  return box_mesh({grid_lines(-1.5, 1.5, n), grid_lines(-1.5, 1.5, n), grid_lines(-thickness, 0, 2)});
}

/// The block bent so that its top becomes a saddle with a ridge: curved cells, normals that vary.
TetMesh curved_block(double h) {
  TetMesh mesh = block(h);
  for (Vec3& x : mesh.nodes)
    x.z() += 0.25 * x.x() * x.x() - 0.15 * x.y() * x.y() + 0.1 * x.x() * x.y() - 0.3 * x.x();
  return mesh;
}

Contact contact_at(const Vec3& point, PressureShape pressure) {
  Contact c;
  c.at = "somewhere";
  c.point = point;
  c.force_N = 100;
  c.radius_mm = 0.5;
  c.pressure = pressure;
  return c;
}

ContactLoad load_of(const TetMesh& mesh, const Contact& contact) {
  return contact_load(mesh, region_surface(mesh, "body").outside, contact);
}

const Vec3 off_grid(0.0131, -0.0272, 0);

}  // namespace

TEST_CASE("The resultant of a contact is the asked force through the contact point", "[contact_load]") {
  const auto pressure = GENERATE(PressureShape::uniform, PressureShape::hertz);
  const double h = GENERATE(0.3, 0.15);
  Contact contact = contact_at(off_grid, pressure);
  SECTION("flat, straight down") {}
  SECTION("flat, oblique") {
    contact.direction = Vec3(0.3, -0.5, -0.8).normalized();
  }
  const ContactLoad load = load_of(block(h), contact);
  CHECK((load.force_N - 100 * contact.direction).norm() < 1e-10);
  CHECK(load.moment_Nmm.norm() < 1e-10 * 100 * contact.radius_mm);
}

TEST_CASE("Force and moment are exact on a curved surface too", "[contact_load]") {
  const auto pressure = GENERATE(PressureShape::uniform, PressureShape::hertz);
  const TetMesh mesh = curved_block(0.15);
  Contact contact = contact_at(Vec3(0.2, 0.1, 0.25 * 0.04 - 0.15 * 0.01 + 0.1 * 0.02 - 0.3 * 0.2), pressure);
  SECTION("along z") {}
  SECTION("along the surface normal") {
    contact.direction = -Vec3(-0.5 * 0.2 - 0.1 * 0.1 + 0.3, 0.3 * 0.1 - 0.1 * 0.2, 1).normalized();
  }
  const ContactLoad load = load_of(mesh, contact);
  CHECK((load.force_N - 100 * contact.direction).norm() < 1e-10);
  CHECK(load.moment_Nmm.norm() < 1e-10 * 100 * contact.radius_mm);
  CHECK(load.offset_mm < 0.05 * contact.radius_mm);  // balancing mends little: the patch was nearly right
}

// Closed forms of a disc of radius a: mean square distance a^2/2 (uniform), 2 a^2/5 (Hertz); highest pressure
// P/(pi a^2) and 3P/(2 pi a^2) (Johnson, Contact Mechanics, 1985, from memory).
TEST_CASE("The patch is round and its pressure has the asked shape", "[contact_load]") {
  const double h = GENERATE(0.3, 0.15);
  const TetMesh mesh = block(h);
  const double a = 0.5, force = 100;
  const auto mean_square = [&](const ContactLoad& load) {
    // Nodal forces carry x^2 exactly on faces in z = 0 only for quadratic x^2, which 6-node faces hold.
    Eigen::Matrix2d sum = Eigen::Matrix2d::Zero();
    for (const auto& [node, f] : load.nodal_forces) {
      const Eigen::Vector2d y = (mesh.nodes[node] - off_grid).head<2>();
      sum += -f.z() / force * y * y.transpose();
    }
    return sum;
  };
  const ContactLoad uniform = load_of(mesh, contact_at(off_grid, PressureShape::uniform));
  CHECK(uniform.area_mm2 == Approx(pi * a * a).epsilon(0.04));  // with the ramp of its edge
  CHECK(uniform.highest_pressure_MPa == Approx(force / (pi * a * a)).epsilon(1e-3));
  CHECK((mean_square(uniform) - a * a / 4 * Eigen::Matrix2d::Identity()).norm() < 1e-3 * a * a / 4);
  const ContactLoad hertz = load_of(mesh, contact_at(off_grid, PressureShape::hertz));
  CHECK(hertz.area_mm2 == Approx(pi * a * a).epsilon(1e-3));
  CHECK(hertz.highest_pressure_MPa == Approx(1.5 * force / (pi * a * a)).epsilon(1e-3));
  CHECK((mean_square(hertz) - a * a / 5 * Eigen::Matrix2d::Identity()).norm() < 1e-3 * a * a / 5);
}

TEST_CASE("A patch larger than the wall is thick does not load the other side", "[contact_load]") {
  const TetMesh mesh = block(0.15, 0.2);
  for (const auto& [node, force] : load_of(mesh, contact_at(off_grid, PressureShape::uniform)).nodal_forces)
    if (force.norm() > 0) CHECK(mesh.nodes[node].z() == 0);
}

TEST_CASE("Contacts of a bite add up", "[contact_load]") {
  const TetMesh mesh = block(0.3);
  Contact left = contact_at(Vec3(-0.8, 0, 0), PressureShape::hertz), right = left;
  right.point.x() = 0.8;
  right.force_N = 50;
  const Eigen::VectorXd loads = bite_load(mesh, "body", {"clench", {left, right}});
  double sum = 0, moment = 0;
  for (int n = 0; n < mesh.n_nodes(); ++n) {
    sum += loads[3 * n + 2];
    moment += mesh.nodes[n].x() * loads[3 * n + 2];
  }
  CHECK(sum == Approx(-150).epsilon(1e-12));
  CHECK(moment == Approx(-0.8 * 50 + 0.8 * 100).epsilon(1e-12));
}

TEST_CASE("Contacts that make no sense are refused in words", "[contact_load]") {
  const TetMesh mesh = block(0.3);
  Contact c = contact_at(off_grid, PressureShape::hertz);
  SECTION("no force") {
    c.force_N = 0;
    CHECK_THROWS_WITH(load_of(mesh, c), Contains("force of 0 N"));
  }
  SECTION("no radius") {
    c.radius_mm = -1;
    CHECK_THROWS_WITH(load_of(mesh, c), Contains("radius of -1 mm"));
  }
  SECTION("off the crown") {
    c.point = Vec3(0, 0, 2);
    CHECK_THROWS_WITH(load_of(mesh, c), Contains("off the crown") && Contains("2.00 mm away"));
  }
  SECTION("pulling") {
    c.direction = Vec3::UnitZ();
    CHECK_THROWS_WITH(load_of(mesh, c), Contains("pulls"));
  }
  SECTION("over the edge") {
    c.point = Vec3(1.5, 0, 0);
    CHECK_THROWS_WITH(load_of(mesh, c), Contains("hangs over the edge"));
  }
  SECTION("smaller than the mesh can show") {
    c.point = Vec3(0.1, 0.05, 0);  // inside one face
    c.radius_mm = 0.02;
    CHECK_THROWS_WITH(load_of(mesh, c), Contains("refine the mesh"));
  }
  SECTION("no contact at all") {
    CHECK_THROWS_AS(bite_load(mesh, "body", {"empty", {}}), ModelError);
  }
  SECTION("a body that is not there") {
    CHECK_THROWS_WITH(bite_load(mesh, "crown", {"b", {c}}), Contains("body"));
  }
}
