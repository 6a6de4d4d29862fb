// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>

#include <Eigen/Cholesky>
#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/material/material.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/strength/zone_peaks.hpp"
#include "solver/stress/region_stress.hpp"

using namespace crownproof;

namespace {

RegionMaterial ceramic() {
  RegionMaterial m;
  m.region = "crown";
  m.material.name = "test ceramic";
  m.material.elastic = isotropic(210e3, .3);
  m.material.strength = MaterialStrength{{600, 10}, std::nullopt};
  return m;
}

/// A block whose stress is a known field.
struct StressedBlock {
  TetMesh mesh = box_mesh({grid_lines(0, 1, 4), grid_lines(0, 1, 4), grid_lines(0, 1, 4)}, {"crown"});
  RegionStress stress;

  template <typename Field>
  explicit StressedBlock(const Field& field) {
    stress.nodes.resize(1);
    stress.stress.resize(1);
    stress.local.resize(1);
    for (int n = 0; n < mesh.n_nodes(); ++n) {
      stress.nodes[0].push_back(n);
      stress.local[0].push_back(n);
      stress.stress[0].push_back(field(mesh.nodes[n]));
    }
  }

  std::vector<ZonePeak> peaks(const RegionMaterial& material, const std::vector<Zone>& zones) const {
    const std::vector<Stiffness> none;
    return zone_peaks({mesh, 0, material, none, zones}, stress);
  }
};

}  // namespace

TEST_CASE("The peak of a zone is its highest first principal stress, with place and direction",
          "[zone_peaks]") {
  const StressedBlock block([](const Vec3& x) -> Voigt { return (100 * x.z() - 20) * Voigt::Unit(1); });
  std::vector<Zone> zones(block.mesh.n_nodes(), Zone::interior);
  for (int n = 0; n < block.mesh.n_nodes(); ++n)
    if (block.mesh.nodes[n].z() == 0) zones[n] = Zone::intaglio;
  const auto peaks = block.peaks(ceramic(), zones);
  REQUIRE(peaks.size() == 2);
  CHECK(peaks[0].zone == Zone::interior);
  CHECK(peaks[0].principal_MPa == Approx(80));
  CHECK(peaks[0].at.z() == 1);
  CHECK(std::abs(peaks[0].direction.y()) == Approx(1));
  CHECK(peaks[0].safety_factor == Approx(7.5));
  CHECK(peaks[1].zone == Zone::intaglio);
  CHECK(peaks[1].principal_MPa == Approx(0).margin(1e-12));
  CHECK(std::isinf(peaks[1].safety_factor));
}

TEST_CASE("In a layered body the weaker way decides, wherever it is", "[zone_peaks]") {
  RegionMaterial m = ceramic();
  m.layered = true;  // layer normal z
  m.material.strength->across_layer = Strength{100, 8};
  // Along the layers up to 90 MPa at x = 1; across them up to 40 MPa at x = 0.
  const StressedBlock block(
      [](const Vec3& x) -> Voigt { return 90 * x.x() * Voigt::Unit(1) + 40 * (1 - x.x()) * Voigt::Unit(2); });
  const std::vector<Zone> zones(block.mesh.n_nodes(), Zone::occlusal);
  const auto peaks = block.peaks(m, zones);
  REQUIRE(peaks.size() == 1);
  CHECK(peaks[0].principal_MPa == Approx(90));
  CHECK(peaks[0].in_layer_MPa == Approx(90));
  CHECK(peaks[0].across_layer_MPa == Approx(40));
  CHECK(peaks[0].mechanism == Mechanism::opens_between_layers);
  CHECK(peaks[0].safety_factor == Approx(2.5));
  CHECK(block.mesh.nodes[peaks[0].node].x() == 0);
  CHECK(peaks[0].at.x() == 1);
}

TEST_CASE("The spread of a peak is zero in a uniform field and large where cells disagree", "[zone_peaks]") {
  const StressedBlock block([](const Vec3&) -> Voigt { return 100 * Voigt::Unit(0); });
  const TetMesh& mesh = block.mesh;
  const Stiffness c = stiffness(ceramic().material.elastic);
  const Voigt strain = c.ldlt().solve(100 * Voigt::Unit(0));
  Eigen::VectorXd u(3 * mesh.n_nodes());
  for (int n = 0; n < mesh.n_nodes(); ++n) u.segment<3>(3 * n) = strain.head<3>().cwiseProduct(mesh.nodes[n]);
  ZonePeak p;
  p.tension_MPa = 100;
  p.node = 31;
  const RegionMaterial material = ceramic();
  const std::vector<Stiffness> stiffnesses{c};
  const std::vector<Zone> zones;
  const StudiedBody body{mesh, 0, material, stiffnesses, zones};
  CHECK(peak_spread(body, u, p) < 1e-12);
  u[3 * 31] += 1e-4;
  CHECK(peak_spread(body, u, p) > 0.1);
}
