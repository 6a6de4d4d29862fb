// SPDX-License-Identifier: AGPL-3.0-or-later
// A ball free to slide in the fossa of a crown: no lateral force, the vertical parts of its areas' forces add
// up to the force (balance), a finer mesh finds the same areas, and they grow with the cube root of the force
// (Hertz: similar shapes under similar loads).
#include <catch2/catch.hpp>

#include <cmath>

#include <fmt/format.h>

#include "io/case/case.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "solver/result/result.hpp"
#include "solver/simulate.hpp"

using namespace crownproof;

namespace {

BallContact press(double force_N, int cells, const char* how = "") {
  const std::string text = fmt::format(R"(crownproof: 1
title: Ball in the fossa
crown: {{tooth: lower_first_molar, occlusal_thickness_mm: 1.0, cement_thickness_um: 80}}
materials: {{crown: zirconia_3y_milled, cement: resin_cement, die: dentin}}
bites:
  - {{name: clench, antagonist: {{at: central_fossa, ball: steel_ball, radius_mm: 3, force_N: {}{}}}}}
accuracy: {{cells: {}}}
)",
                                       force_N, how, cells);
  const Case whole = parse_case(text, "fossa.yaml", builtin_materials());
  const Result result = simulate(build_model(whole.variants[0].case_file, whole.library));
  const BallContact found = result.bites.at(0).antagonist.value().found.value();
  double down = 0;
  for (const TouchingArea& area : found.areas) down += area.force_N * area.normal.z();
  CHECK(down == Approx(force_N).epsilon(0.002));
  return found;
}

}  // namespace

TEST_CASE("a ball free in a fossa carries no lateral force, finer cells find the same", "[ball][slow]") {
  const BallContact coarse = press(300, 80000), fine = press(300, 160000);
  CHECK(coarse.lateral_N < 1e-9 * 300);
  CHECK(fine.lateral_N < 1e-9 * 300);
  REQUIRE(coarse.areas.size() == fine.areas.size());
  CHECK(coarse.areas.size() >= 2);
  CHECK(coarse.approach_mm == Approx(fine.approach_mm).epsilon(0.01));
  for (std::size_t i = 0; i < fine.areas.size(); ++i) {
    const TouchingArea &a = coarse.areas[i], &b = fine.areas[i];
    INFO("area " << i);
    CHECK(a.force_N == Approx(b.force_N).epsilon(0.01));
    CHECK(std::sqrt(a.major_mm * a.minor_mm) == Approx(std::sqrt(b.major_mm * b.minor_mm)).epsilon(0.01));
    CHECK((a.centre - b.centre).norm() < 0.005);
  }
}

TEST_CASE("areas in a fossa grow with the cube root of the force", "[ball][slow]") {
  const BallContact small = press(100, 80000), large = press(800, 80000);
  REQUIRE(small.areas.size() == large.areas.size());
  const auto size = [](const TouchingArea& a) { return std::sqrt(a.major_mm * a.minor_mm); };
  CHECK(size(large.areas[0]) == Approx(2 * size(small.areas[0])).epsilon(0.02));
}

TEST_CASE("held above the landmark instead of its seat, the ball is pushed sideways", "[ball][slow]") {
  const BallContact held = press(300, 80000, ", held_sideways: true");
  CHECK(held.moved_mm == 0);
  CHECK(held.lateral_N > 1);
}
