// SPDX-License-Identifier: AGPL-3.0-or-later
// The tension beside a contact, where the surface is free again. Source: layered half-space (Burmister 1945)
// for what the layers add to the half-space, Johnson, Contact Mechanics (1985) for the half-space itself:
// radial stress (1 - 2 nu) p0 / 3 at the rim of a Hertz pressure, (1 - 2 nu) p / 2 at that of a uniform one,
// hoop stress of the opposite sign.
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "solver/model/zone.hpp"
#include "solver/strength/zone_peak.hpp"
#include "tests/support/layered_half_space.hpp"
#include "tests/support/stack_run.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

/// What the layers add to the strain of the face, radial and hoop; from displacements, in which the edge of
/// the pressure cancels.
struct Added {
  double radial, hoop;
};

Added added_strain(const LayeredHalfSpace& stack, const LayeredHalfSpace& alone, double r) {
  const auto added = [&](double at) { return stack.displacement(at, 0)[0] - alone.displacement(at, 0)[0]; };
  const double h = 0.01 * r;
  return {(added(r + h) - added(r - h)) / (2 * h), added(r) / r};
}

/// Half-space tension at the rim of the contact alone, MPa; the same for both pressures.
double rim_alone(const StackCase& s) {
  return (1 - 2 * s.ceramic_poisson) * 100 / (2 * M_PI * s.contact_radius_mm * s.contact_radius_mm);
}

/// The highest tension of the face between the rim and 1.3 radii; 0: none.
double exact_tension(const StackCase& s) {
  const FlatLayer ceramic{s.thickness_mm, s.ceramic_GPa * 1000, s.ceramic_poisson};
  std::vector<FlatLayer> layers{ceramic};
  if (s.cement_um > 0) layers.push_back({s.cement_um / 1000.0, 8e3, 0.30});
  layers.push_back({0, s.die_GPa * 1000, 0.31});
  const double a = s.contact_radius_mm, nu = s.ceramic_poisson;
  const LayeredHalfSpace stack(layers, a, 100, s.shape), alone({ceramic, ceramic}, a, 100, s.shape);
  const double stiff = ceramic.youngs / (1 - nu * nu);
  double highest = 0;
  for (double r = 1; r <= 1.301; r += 0.05) {
    const Added more = added_strain(stack, alone, r * a);
    highest = std::max({highest, rim_alone(s) / (r * r) + stiff * (more.radial + nu * more.hoop),
                        -rim_alone(s) / (r * r) + stiff * (more.hoop + nu * more.radial)});
  }
  return highest;
}

StackCase random_stack(std::mt19937& random) {
  const auto pick = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  StackCase s;
  s.thickness_mm = std::round(100 * pick(0.6, 2.0)) / 100;
  s.ceramic_GPa = std::round(pick(60, 320));
  s.ceramic_poisson = std::round(100 * pick(0.2, 0.3)) / 100;
  s.cement_um = static_cast<int>(pick(40, 160));
  s.die_GPa = std::round(10 * pick(2, 20)) / 10;
  s.contact_radius_mm = std::round(100 * pick(0.2, 0.8)) / 100;
  s.shape = random() % 2 == 0 ? PressureShape::uniform : PressureShape::hertz;
  return s;
}

}  // namespace

TEST_CASE("Tension beside contacts on random stacks lies in its band",
          "[verification][rims_on_stacks][slow]") {
  VerificationTable table(
      "rims_on_stacks", "Highest tension of the loaded face beside a contact, default mesh",
      "Burmister 1945 (layers) and Johnson 1985 (half-space); error in % of the half-space rim tension");
  std::mt19937 random(20261126);
  for (int i = 0; i < 10; ++i) {
    const StackCase stack = random_stack(random);
    const double exact = exact_tension(stack), alone = rim_alone(stack);
    const Result result = run_stack(stack);
    const ZonePeak& peak = peak_of(result, Zone::contact);
    const std::string name =
        fmt::format("{} mm of {} GPa on {} um and {} GPa, {} {} mm", stack.thickness_mm, stack.ceramic_GPa,
                    stack.cement_um, stack.die_GPa,
                    stack.shape == PressureShape::uniform ? "uniform" : "Hertz", stack.contact_radius_mm);
    INFO(name);
    // In parts of the contact's own rim tension: where layers take it away, the rest is no scale.
    table.compare_to_scale(name, "MPa", exact, peak.tension_MPa, alone, 6);
    CHECK(std::abs(peak.tension_MPa - exact) <= std::max(peak.relative_uncertainty * peak.tension_MPa, 1e-9));
  }
}
