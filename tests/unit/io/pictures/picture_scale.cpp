// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include "io/pictures/picture_scale.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/studied_body.hpp"
#include "tests/support/sample_case.hpp"

using namespace crownproof;

namespace {

/// Layered, 800 and 500 MPa, asked safety factor 2.
Model layered_model() {
  Model model = sample_case(2).model;
  model.requirement.safety_factor = 2;
  for (RegionMaterial& m : model.materials) {
    if (m.region != region_under_study(model)) continue;
    m.layered = true;
    m.material.strength->in_layer.characteristic_MPa = 800;
    m.material.strength->across_layer = m.material.strength->in_layer;
    m.material.strength->across_layer->characteristic_MPa = 500;
  }
  return model;
}

}  // namespace

TEST_CASE("The bar ends at the first number with round eighths that holds every value", "[picture_scale]") {
  CHECK(round_eighths(503) == Approx(640));
  CHECK(round_eighths(100) == Approx(100));
  CHECK(round_eighths(161) == Approx(200));
  CHECK(round_eighths(12) == Approx(12));
  CHECK(round_eighths(0.93) == Approx(1));
  CHECK(round_eighths(-5) > 0);
}

TEST_CASE("Limits are the strengths over the asked safety factor, smallest first", "[picture_scale]") {
  const auto marks = limits_on_scale(layered_model(), PictureQuantity::tension);
  REQUIRE(marks.size() == 2);
  CHECK(marks[0].value == 250);
  CHECK(marks[1].value == 400);
  CHECK(stress_scale(layered_model(), PictureQuantity::tension, 90).title == "Tension that decides, MPa");
}

TEST_CASE("Of a share there is one limit, whatever the ways of breaking", "[picture_scale]") {
  const SceneScale scale = stress_scale(layered_model(), PictureQuantity::share_of_strength, 61);
  REQUIRE(scale.marks.size() == 1);
  CHECK(scale.marks[0].value == 50);
  CHECK(scale.marks[0].drawn_on_body);
  CHECK(scale.title == "Share of the strength used, % (of 800 MPa in the body, 500 MPa between layers)");
}

TEST_CASE("The scale holds a limit that is near and does not run far beyond it", "[picture_scale]") {
  const auto scale = [](double highest) {
    return stress_scale(layered_model(), PictureQuantity::share_of_strength, highest);
  };
  CHECK(scale(12).highest == Approx(12));
  CHECK(scale(39).highest == Approx(64));  // holds the limit of 50
  CHECK(scale(61).highest == Approx(64));
  CHECK_FALSE(scale(61).clipped);
  CHECK(scale(918).highest == Approx(80));
  CHECK(scale(918).clipped);
}
