// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/assess.hpp"

#include <cmath>

#include <Eigen/Cholesky>
#include <catch2/catch.hpp>

#include "mesh/error.hpp"
#include "mesh/volume/box_mesh.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {

RegionMaterial ceramic() {
  RegionMaterial m;
  m.region = "crown";
  m.material.name = "test ceramic";
  m.material.elastic = isotropic(210e3, .3);
  m.material.strength = MaterialStrength{{600, 10}, std::nullopt};
  return m;
}

ZonePeak peak(Zone zone, double tension, double strength, double uncertainty = 0) {
  ZonePeak p;
  p.zone = zone;
  p.principal_MPa = p.tension_MPa = tension;
  p.strength_MPa = strength;
  p.safety_factor = strength / tension;
  p.relative_uncertainty = uncertainty;
  p.mechanism = "breaks across the body";
  return p;
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
};

}  // namespace

TEST_CASE("The peak of a zone is its highest first principal stress, with place and direction", "[assess]") {
  const StressedBlock block([](const Vec3& x) -> Voigt { return (100 * x.z() - 20) * Voigt::Unit(1); });
  std::vector<Zone> zones(block.mesh.n_nodes(), Zone::interior);
  for (int n = 0; n < block.mesh.n_nodes(); ++n)
    if (block.mesh.nodes[n].z() == 0) zones[n] = Zone::intaglio;
  const auto peaks = zone_peaks(block.mesh, "crown", ceramic(), zones, block.stress);
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

TEST_CASE("In a layered body the weaker way decides, wherever it is", "[assess]") {
  RegionMaterial m = ceramic();
  m.layered = true;  // layer normal z
  m.material.strength->across_layer = Strength{100, 8};
  // Along the layers up to 90 MPa at x = 1; across them up to 40 MPa at x = 0.
  const StressedBlock block(
      [](const Vec3& x) -> Voigt { return 90 * x.x() * Voigt::Unit(1) + 40 * (1 - x.x()) * Voigt::Unit(2); });
  const std::vector<Zone> zones(block.mesh.n_nodes(), Zone::occlusal);
  const auto peaks = zone_peaks(block.mesh, "crown", m, zones, block.stress);
  REQUIRE(peaks.size() == 1);
  CHECK(peaks[0].principal_MPa == Approx(90));
  CHECK(peaks[0].in_layer_MPa == Approx(90));
  CHECK(peaks[0].across_layer_MPa == Approx(40));
  CHECK(peaks[0].mechanism == "opens between layers");
  CHECK(peaks[0].safety_factor == Approx(2.5));
  CHECK(block.mesh.nodes[peaks[0].node].x() == 0);
  CHECK(peaks[0].at.x() == 1);
}

TEST_CASE("Verdicts: below, above, undecided", "[assess]") {
  const Requirement twice{2.0};
  const ZonePeak strong = peak(Zone::axial, 100, 600);
  SECTION("below") {
    const Assessment a = judge({peak(Zone::intaglio, 250, 600, 0.1), strong}, twice, "clench");
    CHECK(a.verdict == Verdict::below);
    CHECK(a.governing.zone == Zone::intaglio);
    CHECK_THAT(a.explanation, Contains("clench") && Contains("250 MPa") && Contains("intaglio") &&
                                  Contains("600 MPa") && Contains("2.40 times") && Contains("below"));
  }
  SECTION("above") {
    const Assessment a = judge({strong, peak(Zone::contact, 400, 600, 0.1)}, twice, "clench");
    CHECK(a.verdict == Verdict::above);
    CHECK(a.governing.zone == Zone::contact);
    CHECK_THAT(a.explanation, Contains("above") && Contains("edge of a contact patch"));
  }
  SECTION("undecided just under and just over the limit") {
    for (const double tension : {290.0, 310.0})
      CHECK(judge({strong, peak(Zone::contact, tension, 600, 0.1)}, twice, "b").verdict ==
            Verdict::undecided);
    CHECK(judge({peak(Zone::contact, 290, 600, 0.03)}, twice, "b").verdict == Verdict::below);
    CHECK(judge({peak(Zone::contact, 310, 600, 0.03)}, twice, "b").verdict == Verdict::above);
  }
  SECTION("a doubtful zone makes the bite undecided even if a surer one has less margin") {
    const Assessment a =
        judge({peak(Zone::intaglio, 280, 600, 0.01), peak(Zone::contact, 260, 600, 0.5)}, twice, "b");
    CHECK(a.verdict == Verdict::undecided);
    CHECK(a.governing.zone == Zone::intaglio);
    CHECK_THAT(a.explanation, Contains("at the contact"));
  }
  SECTION("no tension at all") {
    ZonePeak p = peak(Zone::occlusal, 1, 600);
    p.tension_MPa = -3;
    p.safety_factor = INFINITY;
    const Assessment a = judge({p}, twice, "b");
    CHECK(a.verdict == Verdict::below);
    CHECK_THAT(a.explanation, Contains("no tension"));
  }
}

TEST_CASE("A body under study without strength is refused in words", "[assess]") {
  Model model;
  CHECK_THROWS_WITH(material_under_study(model), Contains("no material"));
  model.materials = {ceramic()};
  CHECK(material_under_study(model).region == "crown");
  model.materials[0].material.strength.reset();
  CHECK_THROWS_WITH(material_under_study(model), Contains("no strength"));
}

TEST_CASE("The spread of a peak is zero in a uniform field and large where cells disagree", "[assess]") {
  const StressedBlock block([](const Vec3&) -> Voigt { return 100 * Voigt::Unit(0); });
  const TetMesh& mesh = block.mesh;
  const Stiffness c = stiffness(ceramic().material.elastic);
  const Voigt strain = c.ldlt().solve(100 * Voigt::Unit(0));
  Eigen::VectorXd u(3 * mesh.n_nodes());
  for (int n = 0; n < mesh.n_nodes(); ++n) u.segment<3>(3 * n) = strain.head<3>().cwiseProduct(mesh.nodes[n]);
  ZonePeak p = peak(Zone::interior, 100, 600);
  p.node = 31;
  CHECK(peak_spread(mesh, c, u, "crown", ceramic(), p) < 1e-12);
  u[3 * 31] += 1e-4;
  CHECK(peak_spread(mesh, c, u, "crown", ceramic(), p) > 0.1);
}

TEST_CASE("A peak that does not settle neither clears nor condemns a bite", "[assess]") {
  const Requirement twice{2.0};
  const ZonePeak sure = peak(Zone::intaglio, 100, 600, 0.01);
  const auto unsettled = [](double tension, double u) {
    ZonePeak p = peak(Zone::finish_line, tension, 600, u);
    p.settling = Settling::does_not_settle;
    p.cause = "a sharp edge";
    return p;
  };
  SECTION("far from the limit on the finest mesh: below, and it is named") {
    const Assessment a = judge({sure, unsettled(150, 0.2)}, twice, "b");
    CHECK(a.verdict == Verdict::below);
    CHECK(a.governing.zone == Zone::intaglio);
    CHECK_THAT(a.explanation,
               Contains("No number can be given") && Contains("a sharp edge") && Contains("4.00"));
  }
  SECTION("too near: undecided, and more cells are not what helps") {
    for (const double tension : {280.0, 900.0}) {
      const Assessment a = judge({sure, unsettled(tension, 0.1)}, twice, "b");
      CHECK(a.verdict == Verdict::undecided);
      CHECK_THAT(a.explanation, Contains("is undecided") && Contains("6.00 times this load") &&
                                    Contains("More cells will not decide") && Contains("finish line"));
    }
  }
  SECTION("a sure peak above the limit stays above") {
    const Assessment a = judge({peak(Zone::intaglio, 400, 600, 0.01), unsettled(900, 0.1)}, twice, "b");
    CHECK(a.verdict == Verdict::above);
    CHECK_THAT(a.explanation, Contains("No number can be given") && !Contains("More cells will not"));
  }
  SECTION("nothing settles: undecided") {
    CHECK(judge({unsettled(10, 0.1)}, twice, "b").verdict == Verdict::undecided);
  }
}
