// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/bench_specimen.hpp"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "mesh/model_error.hpp"
#include "solver/bench/plate.hpp"

namespace crownproof {

bool is_disc(BenchTest test) {
  return test == BenchTest::piston_on_three_balls || test == BenchTest::ring_on_ring;
}

namespace {

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
  if (!(s.layer_tilt_deg >= 0 && s.layer_tilt_deg <= 90))
    return fmt::format("The layers of a specimen are tilted by 0 to 90 degrees, not by {:g}.",
                       s.layer_tilt_deg);
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

Vec3 layer_normal_of(const BenchSpecimen& specimen, LayerNormal otherwise) {
  const double tilt = specimen.layer_tilt_deg * std::numbers::pi / 180;
  const Vec3 length = Vec3::UnitX(), width = Vec3::UnitY(), thickness = Vec3::UnitZ();
  switch (specimen.layer_normal.value_or(otherwise)) {
    case LayerNormal::thickness:
      return std::cos(tilt) * thickness + std::sin(tilt) * length;
    case LayerNormal::width:
      return std::cos(tilt) * width + std::sin(tilt) * length;
    case LayerNormal::length:
      break;
  }
  return std::cos(tilt) * length + std::sin(tilt) * thickness;
}

bool layers_feel_test(const BenchSpecimen& specimen, LayerNormal otherwise) {
  constexpr double along = 1e-6;
  const Vec3 n = layer_normal_of(specimen, otherwise);
  return (is_disc(specimen.test) ? std::hypot(n.x(), n.y()) : std::abs(n.x())) > along;
}

PlateStress plate_stress(const BenchSpecimen& disc, double radius_mm) {
  if (const auto why = why_no_disc(disc)) throw ModelError(*why);
  return AxisymmetricPlate(disc).at(radius_mm);
}

}  // namespace crownproof
