// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/specimen_size.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "mesh/model_error.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/plate.hpp"

namespace crownproof {
namespace {

/// One value a modulus.
using Powers = Eigen::ArrayXd;

/// What the flaws feel of a stress: its tensions to the power of each modulus, added up.
Powers felt(const StressMeasure& measure, const Voigt& stress, const Powers& moduli) {
  Powers sum = Powers::Zero(moduli.size());
  for (const double tension : measure(stress))
    if (tension > 0) sum += (moduli * std::log(tension)).exp();
  return sum;
}

/// What flaws feel on the side of a bent specimen that is stretched and on the other one.
Powers felt_on_both_sides(const StressMeasure& measure, const Voigt& stress, const Powers& moduli) {
  return felt(measure, stress, moduli) + felt(measure, -stress, moduli);
}

/// Stress along the radius and around it, at an angle from the length of the disc.
Voigt disc_stress(const PlateStress& s, double angle) {
  const double c = std::cos(angle), n = std::sin(angle);
  Voigt stress = Voigt::Zero();
  stress[0] = s.radial_MPa * c * c + s.tangential_MPa * n * n;
  stress[1] = s.radial_MPa * n * n + s.tangential_MPa * c * c;
  stress[5] = (s.radial_MPa - s.tangential_MPa) * c * n;
  return stress;
}

/// Integral over both faces: around by the midpoint rule, exact for periodic functions but for a remainder
/// that falls exponentially; along the radius by Gauss-Legendre in panels that end where the load changes.
Powers disc_faces(const BenchSpecimen& disc, const StressMeasure& measure, const Powers& moduli) {
  static constexpr std::array<double, 4> x{0.1834346424956498, 0.5255324099163290, 0.7966664774136267,
                                           0.9602898564975363};
  static constexpr std::array<double, 4> w{0.3626837833783620, 0.3137066458778873, 0.2223810344533745,
                                           0.1012285362903763};
  constexpr int panels = 32, around = 32;
  const AxisymmetricPlate plate(disc);
  const double largest = plate.at(0).radial_MPa;
  const auto ring = [&](double r) -> Powers {
    const PlateStress s = plate.at(r);
    const PlateStress part{s.radial_MPa / largest, s.tangential_MPa / largest};
    Powers sum = Powers::Zero(moduli.size());
    for (int i = 0; i < around; ++i)  // half a turn: the other half is the same
      sum += felt_on_both_sides(measure, disc_stress(part, std::numbers::pi * (i + 0.5) / around), moduli);
    return 2 * std::numbers::pi * r / around * sum;
  };
  const std::array<double, 4> ends{0, disc.loading_diameter_mm / 2, disc.support_diameter_mm / 2,
                                   disc.diameter_mm / 2};
  Powers area = Powers::Zero(moduli.size());
  for (int part = 0; part < 3; ++part) {
    const double half = 0.5 * (ends[part + 1] - ends[part]) / panels;
    for (int i = 0; i < panels; ++i)
      for (int k = 0; k < 4; ++k) {
        const double middle = ends[part] + (2 * i + 1) * half;
        area += half * w[k] * (ring(middle - half * x[k]) + ring(middle + half * x[k]));
      }
  }
  return area;
}

/// Of a bent bar whose flaws feel all the tension of its stretched side and nothing of the other.
Powers bar_size(const BenchSpecimen& s, FlawKind flaws, const Powers& moduli) {
  const double w = s.width_mm, t = s.thickness_mm;
  const double inner = s.test == BenchTest::bend_4_point ? s.inner_span_mm : 0;
  // Integral of (moment / largest moment)^m along the bar.
  const Powers length = (moduli * inner + s.span_mm) / (moduli + 1);
  if (flaws == FlawKind::volume) return length * w * t / (2 * (moduli + 1));
  return length * (w + t / (moduli + 1));
}

Powers sizes(const BenchSpecimen& s, const Powers& moduli, FlawKind flaws, const StressMeasure& measure) {
  const Voigt along = Voigt::Unit(0);
  const double w = s.width_mm, t = s.thickness_mm;
  switch (s.test) {
    case BenchTest::piston_on_three_balls:
    case BenchTest::ring_on_ring: {
      const Powers faces = disc_faces(s, measure, moduli);
      return flaws == FlawKind::volume ? Powers(faces * t / (2 * (moduli + 1))) : faces;
    }
    case BenchTest::tension:
      return felt(measure, along, moduli) * s.length_mm * (flaws == FlawKind::volume ? w * t : 2 * (w + t));
    case BenchTest::bend_3_point:
    case BenchTest::bend_4_point:
      return felt_on_both_sides(measure, along, moduli) * bar_size(s, flaws, moduli);
    case BenchTest::compression:
      break;
  }
  throw ModelError(
      "A compression test has no uniform tension, so its strength says nothing about how a crown breaks "
      "in tension; use a bending test.");
}

}  // namespace

std::vector<double> effective_sizes(const BenchSpecimen& specimen, const std::vector<double>& moduli,
                                    FlawKind flaws, const StressMeasure& measure) {
  if (const auto why = why_no_specimen(specimen)) throw ModelError(*why);
  if (!std::all_of(moduli.begin(), moduli.end(), [](double m) { return m > 0; }))
    throw ModelError("The effective size of a specimen needs a Weibull modulus above zero.");
  const auto n = static_cast<Eigen::Index>(moduli.size());
  const Powers all = sizes(specimen, Eigen::Map<const Powers>(moduli.data(), n), flaws, measure);
  return {all.begin(), all.end()};
}

double effective_size(const BenchSpecimen& specimen, double modulus, FlawKind flaws,
                      const StressMeasure& measure) {
  return effective_sizes(specimen, {modulus}, flaws, measure).front();
}

}  // namespace crownproof
