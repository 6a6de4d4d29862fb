// SPDX-License-Identifier: AGPL-3.0-or-later
// A ball in a V-groove: two areas whose forces follow from balance alone, F / (2 sin(half angle)), each with
// the radius of Hertz (Johnson, Contact Mechanics, 1985, eq. 4.22) under that force.

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/contact/antagonist_contact.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/material/material.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/region_material.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

constexpr double youngs = 210000, poisson = 0.3, force = 20;

/// Lines from 0 to `end`, `fine` apart where nearer to `middle` than `reach`, farther apart away from it.
std::vector<double> lines(double middle, double reach, double fine, double end) {
  std::vector<double> up{std::min(middle + reach, end)}, down{std::max(0.0, middle - reach)};
  const int n = static_cast<int>(std::ceil((up[0] - down[0]) / fine));
  for (double step = fine; up.back() < end; up.push_back(std::min(end, up.back() + step))) step *= 1.5;
  for (double step = fine; down.back() > 0; down.push_back(std::max(0.0, down.back() - step))) step *= 1.5;
  std::vector<double> all(down.rbegin(), down.rend());
  for (int i = 1; i < n; ++i) all.push_back(down[0] + (up[0] - down[0]) * i / n);
  all.insert(all.end(), up.begin(), up.end());
  return all;
}

std::vector<double> mirrored(const std::vector<double>& half) {
  std::vector<double> all;
  for (auto i = half.rbegin(); i != half.rend(); ++i) all.push_back(-*i);
  all.insert(all.end(), half.begin() + 1, half.end());
  return all;
}

/// A block whose top is a groove along y: a ball of 1 mm touches at x = +-cos(half angle).
TetMesh grooved_block(double half_angle, double a, double cells_per_radius) {
  const double fine = a / cells_per_radius, reach = 1.4 * a;
  std::vector<double> z = lines(0, 0.8 * a, fine, 1);
  std::reverse(z.begin(), z.end());
  for (double& depth : z) depth = -depth;
  TetMesh mesh = box_mesh(
      {mirrored(lines(std::cos(half_angle), reach, fine, 1.3)), mirrored(lines(0, reach, fine, 1)), z},
      {"crown"});
  for (Vec3& p : mesh.nodes) p.z() += (1 + p.z()) * std::abs(p.x()) / std::tan(half_angle);
  return mesh;
}

}  // namespace

TEST_CASE("a ball in a V-groove presses both sides alike, with the force of balance", "[ball][slow]") {
  VerificationTable table("ball_in_groove", "A ball of 1 mm in a V-groove, six cells a radius",
                          "balance of forces; Hertz; Johnson, Contact Mechanics, 1985, eq. 4.22");
  for (const double degrees : {45.0, 60.0})
    for (const bool held : {false, true}) {
      const double half_angle = degrees * std::numbers::pi / 180;
      const double each = force / (2 * std::sin(half_angle)), k = (1 - poisson * poisson) / youngs;
      const double a = flat_contact_radius(each, 1, k);
      const TetMesh mesh = grooved_block(half_angle, a, 6);
      HeldFlags fixed(3 * mesh.nodes.size(), 0);
      for (const NamedFace& face : mesh.faces)
        if (mesh.face_names[face.name] == "z_low")
          for (const int node : face.nodes)
            for (int d = 0; d < 3; ++d) fixed[3 * node + d] = 1;
      const ElasticitySolver solver(mesh, {stiffness(isotropic(youngs, poisson))}, fixed);
      RegionMaterial crown;
      crown.region = "crown";
      crown.material.elastic = isotropic(youngs, poisson);
      Bite bite{"groove", {}, Antagonist{}};
      bite.antagonist->ball = {.name = "rigid ball", .radius_mm = 1, .force_N = force, .held_sideways = held};
      Eigen::VectorXd loads(3 * mesh.n_nodes()), guess(3 * mesh.n_nodes());
      const Bite pressed = press_antagonist(mesh, crown, bite, solver, loads, guess);
      const auto& areas = pressed.antagonist->found->areas;
      REQUIRE(areas.size() == 2);
      for (const TouchingArea& area : areas) {
        const std::string name = fmt::format("half angle {}, {}, side at {:+.1f}", degrees,
                                             held ? "held" : "free", area.centre.x());
        table.compare(name + ": force", "N", each, area.force_N, 0.5);
        table.compare(name + ": radius", "mm", a, std::sqrt(area.major_mm * area.minor_mm), 1);
      }
    }
}
