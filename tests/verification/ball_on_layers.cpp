// SPDX-License-Identifier: AGPL-3.0-or-later
// A ball on flat stacks, through the path a user takes: case, seat, scouting mesh, asked mesh. References: a
// layered contact solver of its own (Hankel integrals of the layered half-space, pressures by least squares),
// kept as figures; contact radius and peak pressure stay Hertz's within 0.4 %, the tension at the interface
// is nearly that of a point load.
#include <catch2/catch.hpp>

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "solver/model/bite.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/zone_peak.hpp"
#include "tests/support/stack_run.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

struct Reference {
  std::string ball;
  int cement_um;
  double thickness_mm, force_N;
  double radius_mm, peak_MPa, interface_MPa;
};

const Reference references[] = {
    {"rigid", 0, 1.0, 100, 0.099204, 4851.588, 87.49762},
    {"rigid", 80, 0.5, 100, 0.099540, 4818.443, 379.47386},
    {"steel_ball", 0, 0.5, 100, 0.126396, 2988.254, 332.77355},
    {"steel_ball", 80, 1.0, 100, 0.126025, 3006.259, 93.47871},
    {"steel_ball", 0, 1.0, 500, 0.215864, 5122.995, 422.60937},
};

}  // namespace

TEST_CASE("a ball on flat stacks: contact radius, peak pressure, tension at the interface", "[ball][slow]") {
  VerificationTable table("ball_on_layers", "A ball of 3 mm pressed on ceramic on dentin, default mesh",
                          "layered half-space with unilateral contact (Burmister 1945; own integrals)");
  for (const Reference& r : references) {
    StackCase stack;
    stack.thickness_mm = r.thickness_mm;
    stack.cement_um = r.cement_um;
    stack.antagonist = fmt::format("ball: {}, radius_mm: 3, force_N: {}", r.ball, r.force_N);
    const Result result = run_stack(stack);
    const BallContact& found = result.bites.at(0).antagonist.value().found.value();
    REQUIRE(found.areas.size() == 1);
    const TouchingArea& area = found.areas[0];
    const std::string name = fmt::format("{}, {} N, {} mm{}", r.ball, r.force_N, r.thickness_mm,
                                         r.cement_um > 0 ? " on cement" : "");
    table.compare(name + ": contact radius", "mm", r.radius_mm, std::sqrt(area.major_mm * area.minor_mm), 1);
    table.compare(name + ": peak pressure", "MPa", r.peak_MPa, area.peak_MPa, 2);
    table.compare(name + ": tension at the interface", "MPa", r.interface_MPa,
                  peak_of(result, Zone::intaglio).principal_MPa, 2);
    CHECK(found.lateral_N < 1e-9 * r.force_N);
  }
}
