// SPDX-License-Identifier: AGPL-3.0-or-later
// Ceramic on cement on dentin under a round pressure, refined by the program itself through the path a user
// takes: case text, shape, meshes, verdict. Source: exact three-layer half-space solution (Burmister, J.
// Appl. Phys. 16 (1945) 89, 126, 296), computed independently.
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include "io/case.hpp"
#include "solver/simulate.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;

namespace {

Result run_stack(double thickness_mm, const std::string& contact, const std::string& accuracy,
                 double radius_mm = 14) {
  const std::string text = fmt::format(R"(crownproof: 1
title: Refined flat stack
flat_stack: {{radius_mm: {0}, ceramic_thickness_mm: {1}, cement_thickness_um: 80, die_thickness_mm: {0}}}
materials:
  crown: {{youngs_modulus_GPa: 210, poisson_ratio: 0.30, strength: {{characteristic_MPa: 1000, specimen: assumed}}}}
  cement: {{youngs_modulus_GPa: 8, poisson_ratio: 0.30}}
  die: {{youngs_modulus_GPa: 18.6, poisson_ratio: 0.31}}
bites:
  - name: ball
    contacts: [{{at: centre, {2}}}]
accuracy: {{{3}}}
)",
                                       radius_mm, thickness_mm, contact, accuracy);
  const Case whole = parse_case(text, "refined_flat_stack.yaml", builtin_materials());
  return simulate(build_model(whole.variants[0].case_file, whole.library));
}

const ZonePeak& peak_of(const Result& result, Zone zone) {
  for (const ZonePeak& peak : result.bites[0].peaks)
    if (peak.zone == zone) return peak;
  FAIL("no peak in that zone");
  return result.bites[0].peaks[0];
}

}  // namespace

TEST_CASE("Three layers refined to 2 percent", "[verification][refined_flat_stack][slow]") {
  VerificationTable table("refined_flat_stack", "Three layers under uniform pressure, refined to 2 percent",
                          "Burmister 1945 (theory), independent solution; stack of 14 mm for the half-space");
  for (const auto& [thickness, exact] : {std::pair{1.0, 72.696761}, {0.5, 179.196733}}) {
    const Result result = run_stack(thickness, "force_N: 100, radius_mm: 0.5, pressure: uniform",
                                    "stress_percent: 2, max_cells: 200000");
    const ZonePeak& peak = peak_of(result, Zone::intaglio);
    const std::string at = fmt::format(", {} mm of ceramic", thickness);
    CHECK(peak.settling != Settling::does_not_settle);
    table.compare("tension under the ceramic" + at, "MPa", exact, peak.tension_MPa, 1);
    table.within("stated band, plus or minus" + at, "%", 0, 2, 100 * peak.relative_uncertainty);
    table.within("cells of the last mesh" + at, "", 1000, 200000, result.mesh.n_cells());
  }
}

TEST_CASE("A contact that is nearly a point is no number", "[verification][refined_flat_stack][slow]") {
  const Result result =
      run_stack(1.0, "force_N: 100, radius_mm: 0.05", "stress_percent: 20, max_cells: 20000", 5);
  const ZonePeak& contact = peak_of(result, Zone::contact);
  INFO(settling_words(contact.settling) << " " << contact.tension_MPa << " " << contact.cell_size_mm);
  CHECK(contact.settling == Settling::does_not_settle);
  CHECK_FALSE(contact.cause.empty());
}
