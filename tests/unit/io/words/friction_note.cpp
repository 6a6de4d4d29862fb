// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include "io/words/friction_note.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

TEST_CASE("Only forces that teeth could not hold get a note", "[friction_note]") {
  Contact straight, oblique;
  straight.at = "central_fossa";
  oblique.at = "buccal_cusp_inner_slope";
  oblique.surface_normal = Vec3(0, -0.6, 0.8);  // axial force on a slope of 36.9 degrees: tangent 0.75
  Model model;
  model.bites = {{"chewing", {straight}}};
  CHECK(friction_notes(model).empty());
  model.bites.push_back({"clench", {straight, oblique}});
  model.bites.push_back({"again", {oblique}});
  const auto notes = friction_notes(model);
  REQUIRE(notes.size() == 1);
  CHECK_THAT(notes[0], Contains("buccal_cusp_inner_slope") && Contains("0.75"));
}
