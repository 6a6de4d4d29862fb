// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/specimen_formulas.hpp"

#include <cmath>
#include <numbers>

#include "mesh/model_error.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"

namespace crownproof {
namespace {

double square(double x) {
  return x * x;
}

/// ISO 6872: S = -0.2387 P (X - Y) / b^2 with radii of support, piston and disc.
double piston_stress(const BenchSpecimen& s) {
  const double nu = s.poisson, support = square(s.support_diameter_mm / s.diameter_mm),
               piston = square(s.loading_diameter_mm / s.diameter_mm);
  const double x = (1 + nu) * std::log(piston) + (1 - nu) / 2 * piston;
  const double y = (1 + nu) * (1 + std::log(support)) + (1 - nu) * support;
  return -0.2387 * (x - y) / square(s.thickness_mm);
}

/// ASTM C1499.
double ring_stress(const BenchSpecimen& s) {
  const double nu = s.poisson, support = s.support_diameter_mm, loading = s.loading_diameter_mm;
  return 3 / (2 * std::numbers::pi * square(s.thickness_mm)) *
         ((1 - nu) * (square(support) - square(loading)) / (2 * square(s.diameter_mm)) +
          (1 + nu) * std::log(support / loading));
}

}  // namespace

double nominal_stress(const BenchSpecimen& s, double load_N) {
  if (const auto why = why_no_specimen(s)) throw ModelError(*why);
  switch (s.test) {
    case BenchTest::tension:
    case BenchTest::compression:
      return load_N / (s.width_mm * s.thickness_mm);
    case BenchTest::bend_3_point:
      return 1.5 * load_N * s.span_mm / (s.width_mm * square(s.thickness_mm));
    case BenchTest::bend_4_point:
      return 1.5 * load_N * (s.span_mm - s.inner_span_mm) / (s.width_mm * square(s.thickness_mm));
    case BenchTest::piston_on_three_balls:
      return load_N * piston_stress(s);
    case BenchTest::ring_on_ring:
      return load_N * ring_stress(s);
  }
  return 0;
}

double load_for_stress(const BenchSpecimen& specimen, double stress_MPa) {
  return stress_MPa / nominal_stress(specimen, 1);
}

std::optional<double> true_over_formula(const BenchSpecimen& s) {
  if (const auto why = why_no_specimen(s)) throw ModelError(*why);
  switch (s.test) {
    case BenchTest::bend_3_point:
      // Seewald 1927; Timoshenko & Goodier, Theory of Elasticity (plane stress under a point force).
      return 1 - 0.1743 * s.thickness_mm / s.span_mm;
    case BenchTest::bend_4_point:
    case BenchTest::tension:
      return 1.0;
    case BenchTest::piston_on_three_balls:
    case BenchTest::ring_on_ring:
    case BenchTest::compression:
      break;
  }
  return std::nullopt;
}

}  // namespace crownproof
