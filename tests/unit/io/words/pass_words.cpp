// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include "io/words/pass_words.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/zone_peak.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {

ZonePeak peak(Zone zone, double tension, double uncertainty, Settling settling) {
  ZonePeak p;
  p.zone = zone;
  p.tension_MPa = tension;
  p.safety_factor = 600 / tension;
  p.relative_uncertainty = uncertainty;
  p.settling = settling;
  return p;
}

/// Two bites on two meshes; the second bite decides, under the intaglio.
Report refined() {
  Report result;
  result.passes.resize(2);
  result.passes[0].cells = 25000;
  result.passes[1].cells = 54000;
  result.passes[1].predicted_memory_GiB = 0.52;
  for (Pass& pass : result.passes)
    pass.peaks = {{peak(Zone::occlusal, 20, 0.02, Settling::settles)},
                  {peak(Zone::intaglio, 90.26, 0.073, Settling::two_passes)}};
  result.bites.resize(2);
  result.bites[0].name = "clench";
  result.bites[0].tension.governing = peak(Zone::occlusal, 20, 0.02, Settling::settles);
  result.bites[1].name = "side";
  result.bites[1].tension.governing = peak(Zone::intaglio, 90.26, 0.073, Settling::two_passes);
  result.stop = {.reason = StopReason::passes_used_up, .passes = 2};
  return result;
}

}  // namespace

TEST_CASE("The history of meshes is told for the bite that decides", "[pass_words]") {
  const std::string text = pass_table(refined(), {0.21, 0.46});
  CHECK_THAT(text, Contains("'side' (intaglio)") && !Contains("clench"));
  CHECK_THAT(text, Contains("  1        25 000     90.3       -           -   0.2 GiB\n"));
  CHECK_THAT(text, Contains("  2        54 000     90.3    +-8%     0.5 GiB   0.5 GiB\n"));
  CHECK_THAT(text,
             Contains("Stopped    2 meshes were made, the most that are allowed; raise max_passes for a\n"));
  CHECK(pass_sentence(refined()) ==
        "2 meshes, the last of 54 000 cells. 2 meshes were made, the most that are allowed; raise max_passes "
        "for a "
        "narrower band.");
}

TEST_CASE("A peak that keeps growing has no band, a memory not measured no figure", "[pass_words]") {
  Report result = refined();
  result.passes[1].peaks[1][0].settling = Settling::does_not_settle;
  CHECK_THAT(pass_table(result, {}), Contains("  2        54 000     90.3   grows     0.5 GiB         -\n"));
}

TEST_CASE("A single mesh has no history", "[pass_words]") {
  Report result = refined();
  result.passes.pop_back();
  CHECK(pass_table(result, {0.2}).empty());
}
