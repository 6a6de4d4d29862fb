// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/bench_specimen.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "mesh/error.hpp"
#include "solver/bench/plate.hpp"

namespace crownproof {
namespace {

bool is_disc(BenchTest test) {
  return test == BenchTest::piston_on_three_balls || test == BenchTest::ring_on_ring;
}

/// A size that must be above zero.
struct Needed {
  const char* name;
  double value;
};

std::optional<std::string> first_missing(const BenchSpecimen& s, std::initializer_list<Needed> needed) {
  for (const Needed& n : needed)
    if (!(n.value > 0) || !std::isfinite(n.value))
      return fmt::format("A specimen for {} needs its {} (mm) above zero.", bench_test_name(s.test), n.name);
  return std::nullopt;
}

std::optional<std::string> why_no_disc(const BenchSpecimen& s) {
  if (auto why = first_missing(s, {{"thickness", s.thickness_mm},
                                   {"diameter", s.diameter_mm},
                                   {"support diameter", s.support_diameter_mm},
                                   {"loading diameter", s.loading_diameter_mm}}))
    return why;
  if (!(s.loading_diameter_mm < s.support_diameter_mm && s.support_diameter_mm <= s.diameter_mm))
    return fmt::format(
        "On a disc the loading diameter ({} mm) must be smaller than the support diameter ({} mm), and "
        "that no larger than the disc ({} mm).",
        s.loading_diameter_mm, s.support_diameter_mm, s.diameter_mm);
  if (!(s.poisson >= 0 && s.poisson < 0.5)) return "Poisson's ratio of a disc must lie between 0 and 0.5.";
  return std::nullopt;
}

/// Integral of sum (s/s_max)^m over the tensile face, Gauss-Legendre in panels that end where the load
/// changes.
double disc_area(const BenchSpecimen& disc, double m) {
  static constexpr std::array<double, 4> x{0.1834346424956498, 0.5255324099163290, 0.7966664774136267,
                                           0.9602898564975363};
  static constexpr std::array<double, 4> w{0.3626837833783620, 0.3137066458778873, 0.2223810344533745,
                                           0.1012285362903763};
  const AxisymmetricPlate plate(disc);
  const double largest = plate.at(0).radial_MPa;
  const auto ring = [&](double r) {
    const PlateStress s = plate.at(r);
    double sum = 0;
    for (const double stress : {s.radial_MPa, s.tangential_MPa})
      if (stress > 0) sum += std::pow(stress / largest, m);
    return 2 * std::numbers::pi * r * sum;
  };
  const std::array<double, 4> ends{0, disc.loading_diameter_mm / 2, disc.support_diameter_mm / 2,
                                   disc.diameter_mm / 2};
  constexpr int panels = 64;
  double area = 0;
  for (int part = 0; part < 3; ++part)
    for (int i = 0; i < panels; ++i) {
      const double half = 0.5 * (ends[part + 1] - ends[part]) / panels,
                   middle = ends[part] + (2 * i + 1) * half;
      for (int k = 0; k < 4; ++k)
        area += half * w[k] * (ring(middle - half * x[k]) + ring(middle + half * x[k]));
    }
  return area;
}

}  // namespace

std::string bench_test_name(BenchTest test) {
  switch (test) {
    case BenchTest::tension:
      return "uniform tension";
    case BenchTest::bend_3_point:
      return "3-point bending";
    case BenchTest::bend_4_point:
      return "4-point bending";
    case BenchTest::piston_on_three_balls:
      return "piston on three balls";
    case BenchTest::ring_on_ring:
      return "ring on ring";
    case BenchTest::compression:
      return "compression";
  }
  return {};
}

std::optional<std::string> why_no_specimen(const BenchSpecimen& s) {
  if (is_disc(s.test)) return why_no_disc(s);
  if (auto why = first_missing(s, {{"width", s.width_mm}, {"thickness", s.thickness_mm}})) return why;
  if (s.test == BenchTest::tension || s.test == BenchTest::compression)
    return first_missing(s, {{"length", s.length_mm}});
  if (auto why = first_missing(s, {{"span", s.span_mm}})) return why;
  if (s.test == BenchTest::bend_4_point && !(s.inner_span_mm > 0 && s.inner_span_mm < s.span_mm))
    return fmt::format(
        "In 4-point bending the inner span ({} mm) must lie between 0 and the outer span ({} mm).",
        s.inner_span_mm, s.span_mm);
  return std::nullopt;
}

double effective_size(const BenchSpecimen& s, double m, FlawKind flaws) {
  if (const auto why = why_no_specimen(s)) throw ModelError(*why);
  if (!(m > 0)) throw ModelError("The effective size of a specimen needs a Weibull modulus above zero.");
  if (s.test == BenchTest::compression)
    throw ModelError(
        "A compression test has no uniform tension, so its strength says nothing about how a crown breaks "
        "in tension; use a bending test.");
  const bool volume = flaws == FlawKind::volume;
  if (is_disc(s.test)) return disc_area(s, m) * (volume ? s.thickness_mm / (2 * (m + 1)) : 1);
  if (s.test == BenchTest::tension)
    return s.length_mm * (volume ? s.width_mm * s.thickness_mm : 2 * (s.width_mm + s.thickness_mm));
  const double inner = s.test == BenchTest::bend_4_point ? s.inner_span_mm : 0;
  const double length =
      (m * inner + s.span_mm) / (m + 1);  // integral of (moment / largest moment)^m along the bar
  return length *
         (volume ? s.width_mm * s.thickness_mm / (2 * (m + 1)) : s.width_mm + s.thickness_mm / (m + 1));
}

PlateStress plate_stress(const BenchSpecimen& disc, double radius_mm) {
  if (const auto why = why_no_disc(disc)) throw ModelError(*why);
  return AxisymmetricPlate(disc).at(radius_mm);
}

}  // namespace crownproof
