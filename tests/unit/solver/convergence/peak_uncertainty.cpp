// SPDX-License-Identifier: AGPL-3.0-or-later
// Bands of a peak from a sequence of meshes, on published and synthetic sequences.
#include "solver/convergence/peak_uncertainty.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

using namespace crownproof;

namespace {

std::vector<PassValue> sequence(const std::vector<double>& sizes,
                                const std::function<double(double)>& value) {
  std::vector<PassValue> passes;
  for (const double h : sizes) passes.push_back({h, value(h)});
  return passes;
}

}  // namespace

TEST_CASE("Celik et al. 2008, table 1, first column", "[peak_uncertainty]") {
  // Two-dimensional cells: size = 1/sqrt(count). Printed: order 1.53, limit 6.1685, GCI 2.2 %.
  const auto size = [](double cells) { return 1 / std::sqrt(cells); };
  const Richardson r = richardson({size(4500), 5.863}, {size(8000), 5.972}, {size(18000), 6.063});
  CHECK(r.order == Approx(1.533969).epsilon(1e-5));
  CHECK(r.extrapolated == Approx(6.168496).epsilon(1e-6));
  CHECK(r.gci_fine == Approx(0.021750).epsilon(1e-3));
  CHECK(r.gci_coarse == Approx(0.041129).epsilon(1e-3));
}

TEST_CASE("NPARC alliance example of spatial convergence", "[peak_uncertainty]") {
  // NASA Glenn, "Examining spatial (grid) convergence": printed order 1.786170, limit 0.97130, GCI 0.103083
  // %, 0.356249 %.
  const Richardson r = richardson({4, 0.96178}, {2, 0.96854}, {1, 0.97050});
  CHECK(r.order == Approx(1.786170).epsilon(1e-6));
  CHECK(r.extrapolated == Approx(0.97130).epsilon(1e-5));
  CHECK(r.gci_fine == Approx(0.00103083).epsilon(1e-5));
  CHECK(r.gci_coarse == Approx(0.00356249).epsilon(1e-5));
}

TEST_CASE("exact power laws give their order, limit and a band of 1.25 errors or the last step",
          "[peak_uncertainty]") {
  for (const double order : {1.0, 2.0, 3.0})
    for (const double ratio : {1.3, 2.0}) {
      const PeakUncertainty u =
          peak_uncertainty(sequence({0.1 * ratio * ratio, 0.1 * ratio, 0.1},
                                    [&](double h) { return 100 + 2 * std::pow(h, order); }),
                           {.negligible = 0});
      CHECK(u.settling == Settling::settles);
      CHECK(u.order == Approx(order).epsilon(1e-6));
      CHECK(u.extrapolated == Approx(100).epsilon(1e-9));
      const double error = 2 * std::pow(0.1, order), step = error * (std::pow(ratio, order) - 1);
      CHECK(u.half_width() == Approx(std::max(1.25 * error, step)).epsilon(1e-5));
    }
}

TEST_CASE("unequal steps between meshes are accounted for", "[peak_uncertainty]") {
  const PeakUncertainty u = peak_uncertainty(
      sequence({0.5, 0.2, 0.13}, [](double h) { return 40 - 9 * h * h; }), {.negligible = 0});
  CHECK(u.order == Approx(2).epsilon(1e-6));
  CHECK(u.extrapolated == Approx(40).epsilon(1e-9));
}

TEST_CASE("a singular peak does not settle", "[peak_uncertainty]") {
  for (const double strength : {0.0, 0.15, 0.3, 0.5}) {
    const auto value = [&](double h) {
      return strength == 0 ? 50 - 30 * std::log(h) : 100 * std::pow(h, -strength);
    };
    CHECK(peak_uncertainty(sequence({0.4, 0.2, 0.1}, value)).settling == Settling::does_not_settle);
    CHECK(peak_uncertainty(sequence({0.4, 0.22, 0.13}, value)).settling == Settling::does_not_settle);
  }
}

TEST_CASE("a peak smoothed over by large cells settles once they resolve it", "[peak_uncertainty]") {
  const auto value = [](double h) { return 100 / (1 + 25 * h * h); };
  CHECK(peak_uncertainty(sequence({1.6, 0.8, 0.4}, value)).settling == Settling::does_not_settle);
  const PeakUncertainty fine = peak_uncertainty(sequence({1.6, 0.8, 0.4, 0.2, 0.1, 0.05}, value));
  CHECK(fine.settling == Settling::settles);
  CHECK(fine.low < 100);
  CHECK(fine.high > 100);
}

TEST_CASE("a swinging sequence reports its range", "[peak_uncertainty]") {
  const PeakUncertainty shrinking = peak_uncertainty({{0.4, 90}, {0.2, 104}, {0.1, 99}});
  CHECK(shrinking.settling == Settling::oscillates);
  CHECK(shrinking.low == Approx(92));  // half of the larger swing
  CHECK(shrinking.high == Approx(106));
  const PeakUncertainty growing = peak_uncertainty({{0.4, 100}, {0.2, 102}, {0.1, 97}});
  CHECK(growing.settling == Settling::oscillates);
  CHECK(growing.half_width() == Approx(5));
}

TEST_CASE("a lucky small last step does not shrink the band below what the order allows",
          "[peak_uncertainty]") {
  const PeakUncertainty u = peak_uncertainty({{0.4, 90}, {0.2, 98}, {0.1, 98.001}});
  CHECK(u.half_width() == Approx(1.25 * 8.0 / (7.0 * 8.0)));
}

TEST_CASE("few or too similar meshes give a wide band or none", "[peak_uncertainty]") {
  CHECK(peak_uncertainty({}).settling == Settling::one_pass);
  const PeakUncertainty one = peak_uncertainty({{0.1, 7}});
  CHECK(one.settling == Settling::one_pass);
  CHECK(one.half_width() == 0);
  const PeakUncertainty two = peak_uncertainty({{0.2, 90}, {0.1, 96}});
  CHECK(two.settling == Settling::two_passes);
  CHECK(two.half_width() == Approx(6));
  CHECK(peak_uncertainty({{0.101, 90}, {0.1, 96}}).settling == Settling::one_pass);
}

TEST_CASE("Small steps that creep one way keep the band their order earns", "[peak_uncertainty]") {
  // value = 100 (1 - 0.1 h^p): steps below 1.25 %, yet far from the limit of 100 when the order is low.
  SettlingRules rules;
  rules.negligible = 0.0125;
  for (const double order : {0.7, 1.0, 1.5}) {
    std::vector<PassValue> passes;
    for (const double h : {0.4, 0.28, 0.2}) passes.push_back({h, 100 * (1 - 0.1 * std::pow(h, order))});
    const PeakUncertainty band = peak_uncertainty(passes, rules);
    INFO("order " << order << ", value " << band.value << ", band to " << band.high);
    CHECK(band.settling == Settling::settles);
    CHECK(band.high >= 100);
  }
}
