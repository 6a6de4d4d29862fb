// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include "io/pictures/picture_scale.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/studied_body.hpp"
#include "tests/support/sample_case.hpp"

using namespace crownproof;

TEST_CASE("The bar ends at a round number that holds every value", "[picture_scale]") {
  CHECK(round_up(503) == 600);
  CHECK(round_up(100) == 100);
  CHECK(round_up(0.93) == Approx(1));
  CHECK(round_up(-5) == 1);
}

TEST_CASE("Limits are the strengths over the asked safety factor, smallest first", "[picture_scale]") {
  Model model = sample_case(2).model;
  model.requirement.safety_factor = 2;
  for (RegionMaterial& m : model.materials) {
    if (m.region != region_under_study(model)) continue;
    m.layered = true;
    m.material.strength->in_layer.characteristic_MPa = 800;
    m.material.strength->across_layer = m.material.strength->in_layer;
    m.material.strength->across_layer->characteristic_MPa = 500;
  }
  const auto marks = bar_limits(model);
  REQUIRE(marks.size() == 2);
  CHECK(marks[0].value == 250);
  CHECK(marks[1].value == 400);
  CHECK(bar_title(model).starts_with("tension that"));
}
