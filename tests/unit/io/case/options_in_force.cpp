// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/options_in_force.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/support/case_text.hpp"

using namespace crownproof;

TEST_CASE("options in force hold what was written and every default", "[casefile][options_in_force]") {
  const Case whole = parse_case(small_case(), "case.yaml", test_library());
  const auto json = nlohmann::json::parse(options_in_force(whole));
  const auto& written = json.at("variants").at(0).at("case");
  CHECK(written.at("flat_stack").at("radius_mm") == 6);
  CHECK(written.at("flat_stack").at("die_thickness_mm") == 6);  // default
  CHECK(written.at("accuracy").at("cells") == 150000);          // default of a section left out
  CHECK(written.at("bites").at(0).at("contacts").at(0).at("pressure") == "hertz");
  CHECK(written.at("bites").at(0).at("contacts").at(1).at("radius_mm") == 0.5);
  CHECK(written.at("strength").at("required_safety_factor") == 1);
  CHECK_FALSE(written.at("strength").contains("allowed_fracture_probability"));
  CHECK_FALSE(written.contains("crown"));
  const auto& crown = json.at("materials").at("zirconia_3y_printed");
  CHECK(crown.at("elastic").at("youngs_modulus_1_MPa") == 210000);
  CHECK(crown.at("evidence").size() == 4);
}

TEST_CASE("an allowed probability of fracture is among the options in force",
          "[casefile][options_in_force]") {
  const Case whole = parse_case(small_case() + "strength: {allowed_fracture_probability: 0.02, years: 5}\n",
                                "case.yaml", test_library());
  const auto json = nlohmann::json::parse(options_in_force(whole));
  CHECK(json.at("variants").at(0).at("case").at("strength").at("allowed_fracture_probability") == 0.02);
}
