// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/model/zone.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/tension_verdict.hpp"
#include "solver/strength/zone_peak.hpp"

using namespace crownproof;

namespace {

ZonePeak peak(Zone zone, double tension, double strength, double uncertainty = 0) {
  ZonePeak p;
  p.zone = zone;
  p.principal_MPa = p.tension_MPa = tension;
  p.strength_MPa = strength;
  p.safety_factor = strength / tension;
  p.relative_uncertainty = uncertainty;
  p.mechanism = Mechanism::breaks_across_body;
  return p;
}

}  // namespace

TEST_CASE("Verdicts: below, above, undecided", "[tension_verdict]") {
  constexpr double twice = 2.0;
  const ZonePeak strong = peak(Zone::axial, 100, 600);
  SECTION("below") {
    const TensionVerdict a = judge({peak(Zone::intaglio, 250, 600, 0.1), strong}, twice);
    CHECK(a.verdict == Verdict::below);
    CHECK(a.governing.zone == Zone::intaglio);
    CHECK(a.deciding.tension_MPa == 250);
    CHECK(a.load_factor() == Approx(1.2));
  }
  SECTION("above") {
    const TensionVerdict a = judge({strong, peak(Zone::contact, 400, 600, 0.1)}, twice);
    CHECK(a.verdict == Verdict::above);
    CHECK(a.governing.zone == Zone::contact);
  }
  SECTION("undecided just under and just over the limit") {
    for (const double tension : {290.0, 310.0})
      CHECK(judge({strong, peak(Zone::contact, tension, 600, 0.1)}, twice).verdict == Verdict::undecided);
    CHECK(judge({peak(Zone::contact, 290, 600, 0.03)}, twice).verdict == Verdict::below);
    CHECK(judge({peak(Zone::contact, 310, 600, 0.03)}, twice).verdict == Verdict::above);
  }
  SECTION("a doubtful zone makes the bite undecided even if a surer one has less margin") {
    const TensionVerdict a =
        judge({peak(Zone::intaglio, 280, 600, 0.01), peak(Zone::contact, 260, 600, 0.5)}, twice);
    CHECK(a.verdict == Verdict::undecided);
    CHECK(a.governing.zone == Zone::intaglio);
    CHECK(a.deciding.zone == Zone::contact);
  }
  SECTION("no tension at all") {
    ZonePeak p = peak(Zone::occlusal, 1, 600);
    p.tension_MPa = -3;
    p.safety_factor = INFINITY;
    const TensionVerdict a = judge({p}, twice);
    CHECK(a.verdict == Verdict::below);
    CHECK(std::isinf(a.load_factor()));
  }
}

TEST_CASE("A peak that does not settle neither clears nor condemns a bite", "[tension_verdict]") {
  constexpr double twice = 2.0;
  const ZonePeak sure = peak(Zone::intaglio, 100, 600, 0.01);
  const auto unsettled = [](double tension, double u) {
    ZonePeak p = peak(Zone::finish_line, tension, 600, u);
    p.settling = Settling::does_not_settle;
    p.cause = UnsettledCause::sharp_finish_line;
    return p;
  };
  SECTION("far from the limit on the finest mesh: below, and it is named") {
    const TensionVerdict a = judge({sure, unsettled(150, 0.2)}, twice);
    CHECK(a.verdict == Verdict::below);
    CHECK(a.deciding.zone == Zone::intaglio);
    CHECK(a.load_factor() == Approx(2));  // no more is claimed than the unsettled place allows
    REQUIRE(a.unsettled.size() == 1);
    CHECK_FALSE(a.unsettled[0].near_limit);
    CHECK(a.unsettled[0].peak.safety_factor == Approx(4));
  }
  SECTION("too near: undecided, and more cells are not what helps") {
    for (const double tension : {280.0, 900.0}) {
      const TensionVerdict a = judge({sure, unsettled(tension, 0.1)}, twice);
      CHECK(a.verdict == Verdict::undecided);
      CHECK(a.held_back);
      CHECK(a.deciding.safety_factor == Approx(6));
      CHECK(a.load_factor() ==
            Approx(600 / tension / twice));  // no more is claimed than the unsettled place allows
      REQUIRE(a.unsettled.size() == 1);
      CHECK(a.unsettled[0].near_limit);
    }
  }
  SECTION("a sure peak above the limit stays above") {
    const TensionVerdict a = judge({peak(Zone::intaglio, 400, 600, 0.01), unsettled(900, 0.1)}, twice);
    CHECK(a.verdict == Verdict::above);
    CHECK_FALSE(a.held_back);
    CHECK(a.unsettled.size() == 1);
  }
  SECTION("nothing settles: undecided") {
    const TensionVerdict a = judge({unsettled(10, 0.1)}, twice);
    CHECK(a.verdict == Verdict::undecided);
    CHECK(a.nothing_settles);
  }
}
