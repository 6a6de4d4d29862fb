// SPDX-License-Identifier: AGPL-3.0-or-later
#include <catch2/catch.hpp>

#include "io/words/answer_words.hpp"
#include "solver/model/zone.hpp"
#include "solver/result/report.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

PlaceAnswer answer(Zone zone, Settling settling) {
  ZonePeak peak{.zone = zone, .safety_factor = 4, .tension_MPa = 250, .relative_uncertainty = 0.03};
  peak.settling = settling;
  return {.tension = {.verdict = Verdict::below, .governing = peak},
          .probability = 1e-5,
          .fracture = std::nullopt,
          .verdict = Verdict::below};
}

}  // namespace

TEST_CASE("The two answers of a bite say what decides them", "[answer_words]") {
  CHECK_THAT(answer_words(answer(Zone::intaglio, Settling::two_passes), false),
             StartsWith("below, as thickness and material decide: 250 MPa within 3 %") &&
                 Contains("safety factor 4.00; probability of fracture from there 10 in a million"));
  CHECK_THAT(answer_words(answer(Zone::contact, Settling::two_passes), true),
             StartsWith("below, as size and pressure of the contact decide") && Contains("at the contact"));
}

TEST_CASE("A place that keeps the tension but not the probability says so", "[answer_words]") {
  PlaceAnswer bulk = answer(Zone::intaglio, Settling::two_passes);
  bulk.verdict = Verdict::above;
  bulk.fracture = FractureVerdict{.allowed = 0.01, .years = 5, .probability = 0.08, .bounds = {}};
  CHECK_THAT(answer_words(bulk, false), StartsWith("above, as thickness and material decide: 250 MPa") &&
                                            Contains("probability of fracture from there 8.0 %"));
}

TEST_CASE("A place that is below today but unknown after the years says which", "[answer_words]") {
  PlaceAnswer bulk = answer(Zone::intaglio, Settling::two_passes);
  bulk.verdict = Verdict::undecided;
  bulk.tension.years_unknown = true;
  CHECK_THAT(answer_words(bulk, false), StartsWith("undecided after the years, as thickness"));
}

TEST_CASE("What still grows is only bounded", "[answer_words]") {
  CHECK_THAT(answer_words(answer(Zone::finish_line, Settling::does_not_settle), false),
             Contains("still growing; safety factor at most 4.00"));
}
