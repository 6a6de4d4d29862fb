// SPDX-License-Identifier: AGPL-3.0-or-later
// A knife-edge finish line: the wall ends in a wedge bonded to a softer body, where elastic stress has no
// limit (Bogy, J. Appl. Mech. 38 (1971) 377-386). No number may be reported for it.
#include <catch2/catch.hpp>

#include "io/case/case.hpp"
#include "io/words/names.hpp"
#include "io/words/verdict_words.hpp"
#include "solver/model/model.hpp"
#include "solver/model/zone.hpp"
#include "solver/result/result.hpp"
#include "solver/simulate.hpp"
#include "solver/strength/zone_peak.hpp"

using namespace crownproof;

TEST_CASE("A knife-edge finish line does not settle", "[verification][knife_edge][slow]") {
  const Case whole = parse_case(R"(crownproof: 1
title: Knife edge
crown:
  tooth: lower_first_molar
  occlusal_thickness_mm: 1.0
  axial_thickness_mm: 0.8
  finish_line: {form: knife_edge, width_mm: 0.3}
  cement_thickness_um: 80
materials:
  crown: {youngs_modulus_GPa: 210, poisson_ratio: 0.30, strength: {characteristic_MPa: 1000, specimen: assumed}}
  cement: {youngs_modulus_GPa: 8, poisson_ratio: 0.30}
  die: {youngs_modulus_GPa: 18.6, poisson_ratio: 0.31}
bites:
  - name: clench
    contacts: [{at: central_fossa, force_N: 300, radius_mm: 0.5}]
accuracy: {stress_percent: 10, max_cells: 60000}
)",
                                "knife_edge.yaml", builtin_materials());
  const Result result = simulate(build_model(whole.variants[0].case_file, whole.library));
  bool seen = false;
  for (const ZonePeak& peak : result.report.bites[0].peaks) {
    if (peak.zone != Zone::finish_line) continue;
    seen = true;
    INFO(peak.tension_MPa << " MPa, " << settling_words(peak.settling) << ", cells " << peak.cell_size_mm);
    CHECK(peak.settling == Settling::does_not_settle);
    CHECK(peak.cause != UnsettledCause::none);
    CHECK_FALSE(cause_words(peak).empty());
  }
  CHECK(seen);
  CHECK(result.report.bites[0].tension.governing.zone != Zone::finish_line);
}
