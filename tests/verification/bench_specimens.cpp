// SPDX-License-Identifier: AGPL-3.0-or-later
// Stress of standard bench specimens by the program's own elasticity against three-dimensional references:
// plane elasticity under point forces (Seewald 1927), axisymmetric solutions extrapolated to fine meshes. The
// standards' formulas differ from them by the known bias, which the program states.
#include <cmath>

#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/bench/specimen_formulas.hpp"
#include "solver/loads/specimen_problem.hpp"
#include "solver/material/material.hpp"
#include "solver/strength/effective_volume.hpp"
#include "solver/strength/specimen_size.hpp"
#include "solver/stress/region_stress.hpp"
#include "solver/stress/stress_field.hpp"
#include "solver/stress/stress_measure.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

BenchSpecimen c1161_bar(double inner) {
  BenchSpecimen s;
  s.test = inner > 0 ? BenchTest::bend_4_point : BenchTest::bend_3_point;
  s.width_mm = 4, s.thickness_mm = 3, s.span_mm = 40, s.inner_span_mm = inner;
  return s;
}

struct Solved {
  SpecimenProblem problem;
  RegionStress stress;

  Solved(const BenchSpecimen& s, double load, int layers, double poisson)
      : problem(specimen_problem(s, load, layers)),
        stress(specimen_stress(problem, stiffness(isotropic(210e3, poisson)))) {}
  Solved(const Solved&) = delete;

  /// Stress of the node nearest to a place.
  const Voigt& at(const Vec3& place) const {
    int best = 0;
    for (int n = 0; n < problem.mesh.n_nodes(); ++n)
      if ((problem.mesh.nodes[n] - place).norm() < (problem.mesh.nodes[best] - place).norm()) best = n;
    return stress.at(0, best);
  }
  double effective_volume_of(double m, double nominal) const {
    const EffectiveSize size = effective_size(problem.mesh, recovered_field(problem.mesh, stress, 0),
                                              principal_tensions(), {0, FlawKind::volume, {m}, {}, 1});
    return problem.copies * size.size[0] * std::pow(size.peak_MPa / nominal, m);
  }
};

const char* const family = "bench_specimens";

}  // namespace

TEST_CASE("3-point bar: the stress below the roller is 1.3 % under the formula", "[bench_specimens]") {
  const BenchSpecimen s = c1161_bar(0);
  const Solved bar(s, 500, 6, 0.3);
  VerificationTable table(
      family, "Bar 4 x 3 mm, span 40 mm, 3-point bending, 500 N",
      "plane elasticity under point forces (Seewald 1927); effective volume: beam theory");
  table.compare("tension below the roller", "MPa", 0.986931 * nominal_stress(s, 500), bar.at({0, 0, 0})[0],
                0.5);
  table.compare("effective volume, m = 10", "mm3", effective_size(s, 10, FlawKind::volume),
                bar.effective_volume_of(10, nominal_stress(s, 500)), 4);
}

TEST_CASE("4-point bar: the formula holds in the middle", "[bench_specimens]") {
  const BenchSpecimen s = c1161_bar(20);
  const Solved bar(s, 500, 6, 0.3);
  VerificationTable table(family, "Bar 4 x 3 mm, spans 40 and 20 mm, 4-point bending, 500 N", "beam theory");
  table.compare("tension in the middle", "MPa", nominal_stress(s, 500), bar.at({0, 0, 0})[0], 0.3);
  table.compare("effective volume, m = 10", "mm3", effective_size(s, 10, FlawKind::volume),
                bar.effective_volume_of(10, nominal_stress(s, 500)), 3);
  // Plane elasticity of the strip under point forces (Fourier solution): 0.98693 of the formula opposite the
  // inner roller, 1.0100 of it about 0.4 thicknesses inside.
  table.compare("tension opposite an inner roller", "MPa", 0.98693 * nominal_stress(s, 500),
                bar.at({10, 0, 0})[0], 0.5);
  double highest = 0;
  for (int n = 0; n < bar.problem.mesh.n_nodes(); ++n) {
    const Vec3& x = bar.problem.mesh.nodes[n];
    if (x.y() == 0 && x.z() == 0) highest = std::max(highest, bar.stress.at(0, n)[0]);
  }
  table.compare("highest tension along the middle line", "MPa", 1.0100 * nominal_stress(s, 500), highest,
                0.5);
}

TEST_CASE("ring on ring: centre and peak under the loading ring", "[bench_specimens]") {
  BenchSpecimen s;
  s.test = BenchTest::ring_on_ring;
  s.thickness_mm = 1.5, s.loading_diameter_mm = 10, s.support_diameter_mm = 20, s.diameter_mm = 24,
  s.poisson = 0.3;
  const Solved disc(s, 1000, 4, 0.3);
  double peak = 0;
  for (int n = 0; n < disc.problem.mesh.n_nodes(); ++n)
    if (disc.problem.mesh.nodes[n].z() == 0)
      peak = std::max(peak, principal_stress(disc.stress.at(0, n)).values[0]);
  VerificationTable table(family, "Ring on ring, disc 24 x 1.5 mm, rings 20 and 10 mm, 1000 N",
                          "axisymmetric elasticity on fine meshes, extrapolated");
  table.compare("tension in the middle", "MPa", 230.2328, disc.at({0, 0, 0})[0], 0.5);
  table.compare("highest tension, under the loading ring", "MPa", 1.0198 * 229.901013, peak, 1.5);
}

TEST_CASE("ring on ring of a dental disc, and another Poisson's ratio", "[bench_specimens]") {
  BenchSpecimen s;
  s.test = BenchTest::ring_on_ring;
  VerificationTable table(family, "Ring on ring, small disc and other Poisson's ratio",
                          "axisymmetric elasticity on fine meshes, extrapolated");
  s.thickness_mm = 1.2, s.loading_diameter_mm = 5, s.support_diameter_mm = 10, s.diameter_mm = 14,
  s.poisson = 0.3;
  const Solved dental(s, 500, 4, s.poisson);
  table.compare("disc 14 x 1.2 mm, rings 10 and 5 mm, 500 N: tension in the middle", "MPa", 172.0382,
                dental.at({0, 0, 0})[0], 0.5);
  s.thickness_mm = 1.5, s.loading_diameter_mm = 10, s.support_diameter_mm = 20, s.diameter_mm = 24,
  s.poisson = 0.23;
  const Solved large(s, 1000, 4, s.poisson);
  table.compare("disc 24 x 1.5 mm, Poisson's ratio 0.23, 1000 N: tension in the middle", "MPa",
                1.00114 * 223.473035, large.at({0, 0, 0})[0], 0.5);
}

TEST_CASE("piston on three balls: uniform pressure, 1.4 % above the formula", "[bench_specimens][slow]") {
  BenchSpecimen s;
  s.test = BenchTest::piston_on_three_balls;
  s.thickness_mm = 1.2, s.loading_diameter_mm = 1.4, s.support_diameter_mm = 10, s.diameter_mm = 14,
  s.poisson = 0.25;
  const Solved disc(s, 500, 5, 0.25);
  const Voigt centre = disc.at({0, 0, 0});
  VerificationTable table(
      family, "Piston on three balls, disc 14 x 1.2 mm, circle 10 mm, piston 1.4 mm, 500 N",
      "axisymmetric elasticity on fine meshes, extrapolated (at the centre three balls act as a ring)");
  table.compare("tension in the middle", "MPa", 549.890, 0.5 * (centre[0] + centre[1]), 1);
}

TEST_CASE("block in compression: even stress, no tension", "[bench_specimens]") {
  BenchSpecimen s;
  s.test = BenchTest::compression;
  s.width_mm = 6, s.thickness_mm = 5, s.length_mm = 8;
  const Solved block(s, 30000, 2, 0.3);
  for (int n = 0; n < block.problem.mesh.n_nodes(); ++n) {
    CHECK(block.stress.at(0, n)[2] == Approx(-1000).epsilon(1e-6));
    CHECK(std::abs(block.stress.at(0, n)[0]) < 1e-3);
  }
}
