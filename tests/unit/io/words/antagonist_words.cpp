// SPDX-License-Identifier: AGPL-3.0-or-later
#include <cmath>

#include <catch2/catch.hpp>

#include "io/words/antagonist_words.hpp"
#include "solver/model/model.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {

Antagonist pressed() {
  Antagonist a{.ball = {.name = "enamel cusp", .radius_mm = 3, .youngs_MPa = 84000, .hardness_MPa = 3200},
               .at = "central_fossa",
               .found = BallContact{}};
  a.ball.force_N = 300;
  a.found->areas = {{.force_N = 180, .major_mm = 0.2, .minor_mm = 0.1, .peak_MPa = 4297},
                    {.force_N = 150, .major_mm = 0.15, .minor_mm = 0.1, .peak_MPa = 3000}};
  a.found->approach_mm = 0.012;
  return a;
}

}  // namespace

TEST_CASE("What a ball does is told with its areas, forces and pressures", "[antagonist_words]") {
  const Antagonist a = pressed();
  CHECK(antagonist_words(a) ==
        "300 N by an enamel cusp of 3 mm radius, free to find its seat, aimed at central_fossa");
  const auto sentences = touch_sentences(a);
  CHECK_THAT(sentences[0], Contains("2 areas: 180 N on 0.200 x 0.100 mm") && Contains("Approach 12.0 um"));
  CHECK_THAT(sentences[0], !Contains("sideways") && !Contains("beside"));
}

TEST_CASE("A pressure that the antagonist cannot bear is told, with what to do", "[antagonist_words]") {
  const auto sentences = touch_sentences(pressed());
  REQUIRE(sentences.size() == 2);
  CHECK_THAT(sentences[1], Contains("4297 MPa") && Contains("hardness of the enamel cusp") &&
                               Contains("Give the facet as a contact"));
  Antagonist soft = pressed();
  soft.found->areas[0].peak_MPa = 3100;
  CHECK(touch_sentences(soft).size() == 1);
}

TEST_CASE("A ball held off its seat tells what holds it, before it is pressed nothing is told",
          "[antagonist_words]") {
  Antagonist a = pressed();
  a.ball.held_sideways = true;
  a.found->lateral_N = 134;
  CHECK_THAT(antagonist_words(a), Contains("held sideways"));
  CHECK_THAT(touch_sentences(a)[0], Contains("carries 134 N"));
  a.found.reset();
  CHECK(touch_sentences(a).empty());
}

TEST_CASE("Given radii are told beside what an unworn cusp would touch with", "[antagonist_words]") {
  Model model;
  RegionMaterial crown;
  crown.material.elastic = isotropic(210000, 0.3);
  model.materials = {crown};
  CHECK(unworn_notes(model).empty());
  Contact contact;
  contact.force_N = 500;
  model.bites = {{"clench", {contact}}};
  // Hertz: k = 0.91/210000 + 0.91/84000, a = (0.75 * 500 * 3 k)^(1/3) = 0.2572 mm, p0 = 1.5 F / pi a^2.
  const double k = 0.91 / 210000 + 0.91 / 84000, a = std::cbrt(0.75 * 500 * 3 * k);
  CHECK(a == Approx(0.257).epsilon(0.002));
  CHECK_THAT(unworn_notes(model).at(0), Contains("500 N on 0.26 mm at 3.6 GPa"));
}

TEST_CASE("Of a study the worst pressure is told once", "[antagonist_words]") {
  Model mild, hard;
  mild.bites = {{"clench", {}, pressed()}};
  mild.bites[0].antagonist->found->areas[0].peak_MPa = 3000;
  hard.bites = {{"clench", {}, pressed()}};
  CHECK(worst_pressure({&mild}).empty());
  REQUIRE(worst_pressure({&mild, &hard}).size() == 1);
  CHECK_THAT(worst_pressure({&hard, &mild})[0], Contains("4297 MPa"));
}
