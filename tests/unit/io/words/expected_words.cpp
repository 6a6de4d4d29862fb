// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/expected_words.hpp"

#include <catch2/catch.hpp>

#include "io/record/run_record.hpp"
#include "solver/strength/zone_peak.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {

/// A bite with 119.4 MPa on the intaglio and a safety factor of 8.4.
VariantRecord variant(std::vector<ExpectedValue> expected) {
  VariantRecord v{.label = "die epoxy"};
  BiteReport bite;
  bite.name = "ball";
  bite.peaks = {{.zone = Zone::intaglio, .safety_factor = 8.4, .tension_MPa = 119.4}};
  bite.tension.governing = bite.peaks[0];
  bite.fracture.now.probability = 0.0123;
  v.report.bites = {bite};
  v.expected = std::move(expected);
  return v;
}

}  // namespace

TEST_CASE("A stated value stands beside the found one, with how far they lie apart", "[expected_words]") {
  const ExpectedValue value{
      .bite = "ball", .zone = Zone::intaglio, .value = 118.38, .source = "Burmister 1945"};
  const std::vector<VariantRecord> variants{variant({value, value})};
  const std::string table = expected_table(variants);
  CHECK_THAT(table, Contains("die epoxy, ball, intaglio, MPa") && Contains("118.4") && Contains("119.4") &&
                        Contains("+0.9 %") && !Contains("differs"));
  CHECK(table.find("Burmister") == table.rfind("Burmister"));
  CHECK(as_expected(variants[0], value));
}

TEST_CASE("What lies farther away than the case allows, or is not there, is told", "[expected_words]") {
  const ExpectedValue far{.bite = "ball", .quantity = ExpectedQuantity::safety_factor, .value = 9};
  const ExpectedValue missing{.bite = "ball", .zone = Zone::axial, .value = 9};
  const std::vector<VariantRecord> variants{variant({far, missing})};
  CHECK_FALSE(as_expected(variants[0], far));
  CHECK_FALSE(as_expected(variants[0], missing));
  CHECK_THAT(expected_table(variants), Contains("-6.7 %  differs") && Contains("-  differs"));
}

TEST_CASE("A probability is given in percent, and nothing stated makes no table", "[expected_words]") {
  const ExpectedValue chance{.bite = "ball",
                             .quantity = ExpectedQuantity::fracture_probability_percent,
                             .value = 1.2,
                             .within_percent = 5};
  const VariantRecord v = variant({chance});
  CHECK(found_value(v, chance).value() == Approx(1.23));
  CHECK(as_expected(v, chance));
  CHECK(expected_table(std::vector<VariantRecord>{variant({})}).empty());
}
