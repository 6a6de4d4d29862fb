// SPDX-License-Identifier: AGPL-3.0-or-later
// The one integrator for specimens and crowns, against closed forms and one-dimensional quadrature.

#include <cmath>
#include <numbers>

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "mesh/volume/disc_mesh.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/bench/plate.hpp"
#include "solver/strength/effective_volume.hpp"
#include "solver/strength/specimen_size.hpp"
#include "solver/stress/stress_field.hpp"
#include "solver/stress/stress_measure.hpp"

using namespace crownproof;

namespace {

Voigt along_x(double s) {
  return Voigt(s, 0, 0, 0, 0, 0);
}

/// Beam theory, highest stress 1: bar from x = 0 to span, tensile side z = 0.
Voigt beam(const BenchSpecimen& bar, const Vec3& x) {
  const double arm =
      bar.test == BenchTest::bend_4_point ? (bar.span_mm - bar.inner_span_mm) / 2 : bar.span_mm / 2;
  const double moment = std::min({x.x() / arm, (bar.span_mm - x.x()) / arm, 1.0});
  return along_x(moment * (1 - 2 * x.z() / bar.thickness_mm));
}

BenchSpecimen standard_bar(double inner) {
  BenchSpecimen bar;
  bar.test = inner > 0 ? BenchTest::bend_4_point : BenchTest::bend_3_point;
  bar.width_mm = 4;
  bar.thickness_mm = 3;
  bar.span_mm = 40;
  bar.inner_span_mm = inner;
  return bar;
}

EffectiveSize of(const TetMesh& mesh, const StressField& field, FlawKind flaws, std::vector<double> moduli) {
  return effective_size(mesh, field, principal_tensions(), {0, flaws, std::move(moduli), {}, 1});
}

/// One face of a cube blown up to a sphere: a sixth of the shell from radius a to b, with curved cells.
TetMesh sixth_of_shell(double a, double b, int n, int layers) {
  TetMesh mesh = box_mesh({grid_lines(-1, 1, n), grid_lines(-1, 1, n), grid_lines(a, b, layers)});
  for (Vec3& p : mesh.nodes) {
    const Vec3 direction(std::tan(p.x() * std::numbers::pi / 4), std::tan(p.y() * std::numbers::pi / 4), 1);
    p = p.z() * direction.normalized();
  }
  return mesh;
}

}  // namespace

TEST_CASE("uniform tension: the effective size is the size", "[effective_volume]") {
  const TetMesh mesh = box_mesh({grid_lines(0, 5, 3), grid_lines(0, 2, 2), grid_lines(0, 3, 2)});
  const StressField field = exact_field(mesh, [](const Vec3&) { return along_x(250); });
  const EffectiveSize volume = of(mesh, field, FlawKind::volume, {5, 30});
  CHECK(volume.peak_MPa == Approx(250).epsilon(1e-14));
  CHECK(volume.size[0] == Approx(30).epsilon(1e-12));
  CHECK(volume.size[1] == Approx(30).epsilon(1e-12));
  // The two ends lie across the tension: nothing acts within them.
  CHECK(of(mesh, field, FlawKind::surface, {10}).size[0] == Approx(2 * 5 * (2 + 3)).epsilon(1e-12));
  SECTION("pressure breaks nothing") {
    const EffectiveSize none =
        of(mesh, exact_field(mesh, [](const Vec3&) { return along_x(-250); }), FlawKind::volume, {5});
    CHECK(none.peak_MPa == 0);
    CHECK(none.size[0] == 0);
  }
  SECTION("regions and labels") {
    std::vector<int> labels(mesh.n_cells());
    for (int c = 0; c < mesh.n_cells(); ++c) labels[c] = c % 3;
    const auto parts =
        effective_size(mesh, field, principal_tensions(), {0, FlawKind::volume, {7}, labels, 3});
    CHECK(parts.by_label[0][0] + parts.by_label[0][1] + parts.by_label[0][2] == Approx(30).epsilon(1e-12));
    CHECK(parts.by_label[0][0] > 0);
  }
}

TEST_CASE("bars in bending: within 1 % of the closed forms", "[effective_volume]") {
  // Only 6 cells through the thickness; the stress is not smooth under the rollers, which lie on grid lines.
  const TetMesh mesh = box_mesh({grid_lines(0, 40, 16), grid_lines(0, 4, 3), grid_lines(0, 3, 6)});
  const std::vector<double> moduli{5, 10, 15, 20, 30};
  for (const double inner : {0.0, 20.0}) {
    const BenchSpecimen bar = standard_bar(inner);
    const StressField field = exact_field(mesh, [&](const Vec3& x) { return beam(bar, x); });
    for (const FlawKind flaws : {FlawKind::volume, FlawKind::surface}) {
      const EffectiveSize size = of(mesh, field, flaws, moduli);
      CHECK(size.peak_MPa == Approx(1).epsilon(1e-12));
      for (std::size_t k = 0; k < moduli.size(); ++k) {
        INFO("inner span " << inner << ", m " << moduli[k]);
        CHECK(size.size[k] == Approx(effective_size(bar, moduli[k], flaws)).epsilon(1e-3));
      }
    }
  }
}

TEST_CASE("discs with the thin-plate field: within 3 % of the plate integrals", "[effective_volume]") {
  BenchSpecimen ring;
  ring.test = BenchTest::ring_on_ring;
  ring.thickness_mm = 1.5, ring.loading_diameter_mm = 10, ring.support_diameter_mm = 20,
  ring.diameter_mm = 24;
  BenchSpecimen piston;
  piston.test = BenchTest::piston_on_three_balls, piston.poisson = 0.25;
  piston.thickness_mm = 1.2, piston.loading_diameter_mm = 1.4, piston.support_diameter_mm = 10,
  piston.diameter_mm = 14;
  for (const BenchSpecimen& disc : {ring, piston}) {
    std::vector<double> lines;  // finer in the middle
    for (int i = 0; i <= 14; ++i) lines.push_back(disc.diameter_mm / 2 * std::pow(i / 14.0, 1.3));
    const TetMesh mesh = disc_mesh({lines, grid_lines(0, disc.thickness_mm, 3)});
    const AxisymmetricPlate plate(disc);
    const StressField field = exact_field(mesh, [&](const Vec3& x) -> Voigt {
      const double r = std::hypot(x.x(), x.y());
      const PlateStress s = plate.at(r);
      const double depth = 1 - 2 * x.z() / disc.thickness_mm;  // tensile face z = 0
      const double c = r > 0 ? x.x() / r : 1, n = r > 0 ? x.y() / r : 0;
      Voigt v = Voigt::Zero();
      v[0] = depth * (s.radial_MPa * c * c + s.tangential_MPa * n * n);
      v[1] = depth * (s.radial_MPa * n * n + s.tangential_MPa * c * c);
      v[5] = depth * (s.radial_MPa - s.tangential_MPa) * c * n;
      return v;
    });
    const EffectiveSize size = of(mesh, field, FlawKind::volume, {5, 10, 20});
    int k = 0;
    for (const double m : {5.0, 10.0, 20.0})
      CHECK(size.size[k++] == Approx(effective_size(disc, m, FlawKind::volume)).epsilon(0.01));
  }
}

TEST_CASE("hollow sphere under inner pressure: curved cells against one-dimensional quadrature",
          "[effective_volume]") {
  // Lame: hoop stress A + B/(2 r^3), twice; radial stress is pressure. Inner radius 1, outer 2.
  const double a = 1, b = 2, A = 100 / 7.0, B = A * 8;
  const auto hoop = [&](double r) { return A + B / (2 * r * r * r); };
  const TetMesh mesh = sixth_of_shell(a, b, 7, 4);
  const StressField field = exact_field(mesh, [&](const Vec3& x) {
    const double r = x.norm();
    const Vec3 n = x / r;
    const double radial = A - B / (r * r * r);
    return stress_components(hoop(r) * Mat3::Identity() + (radial - hoop(r)) * n * n.transpose());
  });
  const std::vector<double> moduli{5, 10, 25};
  const EffectiveSize volume = of(mesh, field, FlawKind::volume, moduli);
  for (std::size_t k = 0; k < moduli.size(); ++k) {
    double exact = 0;  // Simpson
    const int n = 2000;
    for (int i = 0; i <= n; ++i) {
      const double r = a + (b - a) * i / n, weight = (i == 0 || i == n) ? 1 : i % 2 ? 4 : 2;
      exact += weight * (b - a) / n / 3 * 2 * 4 * std::numbers::pi / 6 * r * r *
               std::pow(hoop(r) / hoop(a), moduli[k]);
    }
    CHECK(volume.size[k] == Approx(exact).epsilon(2e-3));
  }
}

TEST_CASE("rotating stress and layers together changes nothing", "[effective_volume]") {
  const TetMesh mesh = box_mesh({grid_lines(0, 3, 3), grid_lines(0, 2, 2), grid_lines(0, 1, 2)});
  const Mat3 turn = Eigen::AngleAxisd(0.7, Vec3(1, 2, -0.5).normalized()).toRotationMatrix();
  const Vec3 normal = Vec3(0.2, -0.4, 0.9).normalized();
  const auto stress = [](const Vec3& x) -> Voigt {
    return Voigt(100 * x.x(), 60 - 90 * x.y(), 80 * x.z() * x.x(), 30 * x.y(), -20 + 15 * x.x(), 40 * x.z());
  };
  const auto turned = [&](const Vec3& x) {
    return stress_components(turn * stress_tensor(stress(x)) * turn.transpose());
  };
  const StressField before = exact_field(mesh, stress), after = exact_field(mesh, turned);
  const auto compare = [&](const StressMeasure& a, const StressMeasure& b) {
    const auto x = effective_size(mesh, before, a, {0, FlawKind::volume, {6, 12, 25}, {}, 1});
    const auto y = effective_size(mesh, after, b, {0, FlawKind::volume, {6, 12, 25}, {}, 1});
    CHECK(x.peak_MPa == Approx(y.peak_MPa).epsilon(1e-12));
    for (int k = 0; k < 3; ++k) CHECK(x.size[k] == Approx(y.size[k]).epsilon(1e-8));
  };
  compare(principal_tensions(), principal_tensions());
  compare(in_layer_tensions(normal), in_layer_tensions(turn * normal));
  compare(layer_plane_tensions(normal, {}), layer_plane_tensions(turn * normal, {}));
}

TEST_CASE("twisted rod: layers across it feel the shear, layers along it where they meet it",
          "[effective_volume]") {
  // Shear t = t_max r/R around the axis. Layers across the axis feel t / divisor: V_E = V 2 / (m + 2). On
  // layers along it, of normal x, acts t |sin a|: L R^2 / (m + 2) times the integral of |sin a|^m, which is
  // 2 sqrt(pi) G((m + 1)/2) / G(m/2 + 1).
  const double radius = 2, length = 1;
  const TetMesh mesh = disc_mesh({grid_lines(0, radius, 24), grid_lines(0, length, 1)});
  const StressField field = exact_field(mesh, [&](const Vec3& x) -> Voigt {
    return 100 / radius * (x.x() * Voigt::Unit(3) - x.y() * Voigt::Unit(4));
  });
  const std::vector<double> moduli{6.5, 12};
  const auto size = [&](const Vec3& normal) {
    return effective_size(mesh, field, layer_plane_tensions(normal, {}),
                          {0, FlawKind::volume, moduli, {}, 1});
  };
  const EffectiveSize across = size(Vec3::UnitZ()), along = size(Vec3::UnitX());
  CHECK(across.peak_MPa == Approx(100 / 0.85).epsilon(1e-9));
  CHECK(along.peak_MPa == Approx(100 / 0.85).epsilon(2e-3));  // the highest of the nodes
  for (std::size_t k = 0; k < moduli.size(); ++k) {
    const double m = moduli[k], volume = std::numbers::pi * radius * radius * length;
    CHECK(across.size[k] == Approx(volume * 2 / (m + 2)).epsilon(2e-3));
    const double around = 2 * std::sqrt(std::numbers::pi) * std::tgamma((m + 1) / 2) / std::tgamma(m / 2 + 1);
    CHECK(along.size[k] * std::pow(along.peak_MPa * 0.85 / 100, m) ==
          Approx(length * radius * radius / (m + 2) * around).epsilon(2e-3));
  }
}

TEST_CASE("sphere of hoop stress: layers feel its sine", "[effective_volume]") {
  // Stress s(r) in both directions across the radius. A layer plane whose normal makes the angle t with the
  // radius opens by s sin^2 t and shears by s sin t cos t; with divisor 1 it feels s sin t. With s = r/b the
  // integral of (s sin t)^m is 2 pi (b^3 - a^3 (a/b)^m) / (m + 3) times that of sin^(m+1) t,
  // sqrt(pi) G(m/2 + 1) / G((m + 3)/2).
  const double a = 1, b = 2;
  const TetMesh mesh = sixth_of_shell(a, b, 7, 3);
  const StressField field = exact_field(mesh, [&](const Vec3& x) {
    const Vec3 n = x.normalized();
    return stress_components(x.norm() / b * (Mat3::Identity() - n * n.transpose()));
  });
  const std::vector<double> moduli{5, 9.1};
  std::vector<double> whole(moduli.size(), 0.0);  // the sixth seen from above, and from two sides
  for (const Vec3& normal : {Vec3::UnitX().eval(), Vec3::UnitY().eval(), Vec3::UnitZ().eval()}) {
    const EffectiveSize part = effective_size(mesh, field, layer_plane_tensions(normal, {1, false, 0}),
                                              {0, FlawKind::volume, moduli, {}, 1});
    for (std::size_t k = 0; k < moduli.size(); ++k)
      whole[k] += 2 * part.size[k] * std::pow(part.peak_MPa, moduli[k]);
  }
  for (std::size_t k = 0; k < moduli.size(); ++k) {
    const double m = moduli[k], pi = std::numbers::pi;
    CHECK(whole[k] == Approx(2 * pi * (b * b * b - a * a * a * std::pow(a / b, m)) / (m + 3) * std::sqrt(pi) *
                             std::tgamma(m / 2 + 1) / std::tgamma((m + 3) / 2))
                          .epsilon(2e-3));
  }
}

TEST_CASE("layers under pressure add exactly nothing, whatever the shear", "[effective_volume]") {
  const TetMesh mesh = box_mesh({grid_lines(0, 3, 3), grid_lines(0, 2, 2), grid_lines(0, 1, 2)});
  const StressField pressed = exact_field(mesh, [](const Vec3& x) -> Voigt {
    return Voigt(300, 100 * x.y(), -20 - 50 * x.x(), 400, 300 * x.z(), 50);
  });
  const EffectiveSizeRequest request{0, FlawKind::volume, {8}, {}, 1};
  const EffectiveSize none = effective_size(mesh, pressed, layer_plane_tensions(Vec3::UnitZ(), {}), request);
  CHECK(none.peak_MPa == 0);
  CHECK(none.size[0] == 0);
  const EffectiveSize slides =
      effective_size(mesh, pressed, layer_plane_tensions(Vec3::UnitZ(), {.slide = true}), request);
  CHECK(slides.size[0] > 0);
  CHECK(slides.peak_MPa == Approx((std::hypot(400, 300) - 0.5 * 20) / 0.85).epsilon(1e-9));
}
