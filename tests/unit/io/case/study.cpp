// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/study.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "tests/support/case_text.hpp"

using namespace crownproof;
using Catch::Contains;
using Catch::StartsWith;

TEST_CASE("all combinations are made, the last key fastest", "[casefile][study]") {
  const Case whole =
      read_and_build(small_case() +
                     "study: {vary: {flat_stack.ceramic_thickness_mm: [0.6, 1.5], materials.crown: "
                     "[zirconia_3y_milled, zirconia_5y_milled]}}\n");
  REQUIRE(whole.variants.size() == 4);
  CHECK(whole.variants[1].label == "ceramic thickness 0.6 mm, crown zirconia_5y_milled");
  CHECK(whole.variants[2].case_file.flat_stack->value.ceramic_thickness_mm == 1.5);
  CHECK(std::get<std::string>(whole.variants[3].case_file.materials.crown->value) == "zirconia_5y_milled");
  CHECK(whole.variants[3].varied[0] ==
        std::pair<std::string, std::string>("flat_stack.ceramic_thickness_mm", "1.5"));
}

TEST_CASE("paths go into lists by name and position, and to keys left out", "[casefile][study]") {
  const Case whole =
      read_and_build(small_case() +
                     "study: {vary: {bites.clench.contacts.2.force_N: [50], strength.required_safety_factor: "
                     "[2.5], build: [{tilt_deg: 90, toward: lingual}]}}\n");
  REQUIRE(whole.variants.size() == 1);
  const CaseFile& c = whole.variants[0].case_file;
  CHECK(c.bites[0].contacts[1].force_N == 50);
  CHECK(c.strength.required_safety_factor == 2.5);
  CHECK(c.build.toward == Toward::lingual);
}

TEST_CASE("a wrong value or key of a study is shown where it stands", "[casefile][study]") {
  const auto message = [](const std::string& vary) {
    return message_of(small_case() + "study:\n  vary:\n    " + vary + "\n");
  };
  CHECK_THAT(message("flat_stack.ceramic_thickness_mm: [0.6, -1]"),
             StartsWith("case.yaml:19:44: 'flat_stack.ceramic_thickness_mm' is -1 mm"));
  CHECK_THAT(message("flat_stack.thickness_mm: [0.6]"),
             StartsWith("case.yaml:19:5: unknown key 'thickness_mm'"));
  CHECK_THAT(message("flat_stack.radius_mm.x: [1]"),
             StartsWith("case.yaml:19:5: 'flat_stack.radius_mm.x' goes through"));
  CHECK_THAT(message("bites.chewing.name: [a]"),
             Contains("'chewing' in 'bites.chewing.name' names no entry"));
  CHECK_THAT(message("bites.3.name: [a]"), Contains("position from 1 to 1"));
  CHECK_THAT(message("flat_stack.radius_mm: 3"), Contains("must be a list with at least one entry"));
  CHECK_THAT(message("flat_stack.radius_mm: []"), Contains("must be a list with at least one entry"));
  CHECK_THAT(message("flat_stack..radius_mm: [3]"), Contains("is no key path"));
  CHECK_THAT(message("study.vary: [3]"), Contains("cannot vary itself"));
  CHECK_THAT(message_of(small_case() + "study: {very: {a: [1]}}\n"), Contains("did you mean 'vary'?"));
  std::string many = "flat_stack.radius_mm: [6";
  for (int i = 1; i <= 30; ++i) many += fmt::format(", {}", 6 + i);
  CHECK_THAT(message(many + "]\n    build.tilt_deg: [" + many.substr(23) + "]"),
             Contains("more than 500 variants"));
}

TEST_CASE("keys with the same last part are told apart in labels", "[casefile][study]") {
  const Case whole = read_and_build(
      small_case() +
      "study: {vary: {bites.clench.contacts.1.force_N: [50], bites.clench.contacts.2.force_N: [60]}}\n");
  CHECK(whole.variants[0].label == "bites.clench.contacts.1.force_N 50, bites.clench.contacts.2.force_N 60");
  std::string vary;
  for (int i = 0; i < 21; ++i) vary += fmt::format("a{}: [1], ", i);
  CHECK_THAT(message_of(small_case() + "study: {vary: {" + vary + "b: [1]}}\n"),
             Contains("more than 20 keys"));
}
