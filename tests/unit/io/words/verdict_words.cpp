// SPDX-License-Identifier: AGPL-3.0-or-later
// What a reader is told of a verdict: every figure once, no two sentences that contradict each other.

#include <cmath>

#include <catch2/catch.hpp>

#include "io/words/verdict_words.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/zone_peak.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

ZonePeak peak(Zone zone, double tension, double uncertainty = 0.03) {
  ZonePeak p;
  p.zone = zone;
  p.tension_MPa = tension;
  p.strength_MPa = 600;
  p.safety_factor = 600 / tension;
  p.relative_uncertainty = uncertainty;
  return p;
}

ZonePeak unsettled(double tension) {
  ZonePeak p = peak(Zone::finish_line, tension, 0.1);
  p.settling = Settling::does_not_settle;
  p.cause = UnsettledCause::sharp_finish_line;
  return p;
}

/// A bite judged on tension, twice the load asked for.
BiteReport bite(const std::vector<ZonePeak>& peaks) {
  BiteReport b;
  b.name = "a: b";  // a colon of the user's own
  b.peaks = peaks;
  b.tension = judge(peaks, 2);
  b.verdict = b.tension.verdict;
  return b;
}

/// The same with a second limit on the probability.
BiteReport with_probability(BiteReport b, Verdict verdict, double probability, double load_factor) {
  FractureVerdict f{.allowed = 0.01, .probability = probability, .bounds = Interval{0.02, 0.2}};
  f.verdict = verdict;
  f.load_factor = load_factor;
  const BothVerdicts both = combine_verdicts(b.tension, f);
  b.verdict = both.verdict;
  b.fracture_verdict = both.fracture;
  return b;
}

}  // namespace

TEST_CASE("A bite below is told with tension, place, strength and load", "[verdict_words]") {
  const std::string text = explanation(bite({peak(Zone::intaglio, 250, 0.1)}), "Bite");
  CHECK_THAT(text, StartsWith("Bite 'a: b' is below the limit: 250 MPa within 10 %") &&
                       Contains("intaglio") && Contains("at 600 MPa") &&
                       Contains("reaches 600 MPa at 2.40 times this load"));
}

TEST_CASE("A bite above names the caveat of a contact's edge", "[verdict_words]") {
  const std::string text = verdict_words(bite({peak(Zone::contact, 400)}));
  CHECK_THAT(text, StartsWith("above the limit: 400 MPa") && Contains("edge of a contact patch"));
}

TEST_CASE("A bite without tension says that it is below", "[verdict_words]") {
  ZonePeak none = peak(Zone::occlusal, 1);
  none.tension_MPa = -3;
  none.safety_factor = INFINITY;
  CHECK_THAT(verdict_words(bite({none})), StartsWith("below the limit: there is no tension anywhere"));
}

TEST_CASE("A peak that does not settle far from the limit is named, near it decides", "[verdict_words]") {
  const ZonePeak sure = peak(Zone::intaglio, 100, 0.01);
  CHECK_THAT(verdict_words(bite({sure, unsettled(150)})),
             StartsWith("below the limit: 100 MPa") && Contains("No number can be given") &&
                 Contains("finish line is a sharp edge") && Contains("4.00"));
  CHECK_THAT(verdict_words(bite({sure, unsettled(280)})),
             StartsWith("undecided. Where the stress settles it is below the limit: 100 MPa") &&
                 Contains("at no more than 2.14 times this load") && Contains("More cells will not decide"));
  CHECK_THAT(verdict_words(bite({peak(Zone::intaglio, 400), unsettled(900)})),
             StartsWith("above") && Contains("No number can be given") && !Contains("More cells will not"));
}

TEST_CASE("If the probability decides the tension is told with its own verdict", "[verdict_words]") {
  const std::string text =
      explanation(with_probability(bite({peak(Zone::axial, 100)}), Verdict::above, 0.05, 0.8), "Bite");
  CHECK_THAT(
      text,
      StartsWith("Bite 'a: b' is above the limit of fracture: probability of fracture 5.0 % (90 % bounds "
                 "from the bench test: 2.0 % to 20 %), 1 % allowed. This limit decides") &&
          Contains("The tension alone is below: 100 MPa within 3 %"));
}

TEST_CASE("A bite held back and above by its probability says both without contradiction",
          "[verdict_words]") {
  const BiteReport held = bite({peak(Zone::intaglio, 100, 0.01), unsettled(280)});
  const std::string text = verdict_words(with_probability(held, Verdict::above, 0.05, 0.8));
  CHECK_THAT(text, Contains("The tension alone is undecided: Where the stress settles it is below the "
                            "limit: 100 MPa"));
}

TEST_CASE("If the tension decides the other limit stands behind it", "[verdict_words]") {
  const std::string text =
      verdict_words(with_probability(bite({peak(Zone::axial, 700)}), Verdict::below, 1e-5, 3));
  CHECK_THAT(text, StartsWith("above the limit: 700 MPa") &&
                       Contains("The tension decides; the other limit is kept: probability of fracture"));
}

TEST_CASE("A strength unknown after the years is not called below", "[verdict_words]") {
  BiteReport b = bite({peak(Zone::intaglio, 100, 0.01)});
  b.tension = without_years(b.tension);
  b.verdict = b.tension.verdict;
  CHECK(b.verdict == Verdict::undecided);
  CHECK_THAT(verdict_words(b), StartsWith("undecided: today it is below the limit") &&
                                   Contains("nothing is known of the fatigue") &&
                                   Contains("leave out 'years'"));
}

TEST_CASE("What is above the limit but below the strength says which limit", "[verdict_words]") {
  CHECK_THAT(verdict_words(bite({peak(Zone::intaglio, 500, 0.01)})),
             StartsWith("above the limit: 500 MPa") && Contains("the limit is 300 MPa") &&
                 Contains("at 600 MPa, safety factor 2 asked"));
}
