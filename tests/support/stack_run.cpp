// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/stack_run.hpp"

#include <stdexcept>

#include <fmt/format.h>

#include "io/case/case.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "solver/result/result.hpp"
#include "solver/simulate.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {

Result run_stack(const StackCase& stack) {
  const std::string cement =
      stack.cement_um > 0 ? "  cement: {youngs_modulus_GPa: 8, poisson_ratio: 0.30}\n" : "";
  const std::string touch =
      stack.antagonist.empty()
          ? fmt::format("contacts: [{{at: centre, force_N: 100, radius_mm: {}, pressure: {}}}]",
                        stack.contact_radius_mm, stack.shape == PressureShape::uniform ? "uniform" : "hertz")
          : fmt::format("antagonist: {{at: centre, {}}}", stack.antagonist);
  const std::string text = fmt::format(
      R"(crownproof: 1
title: Flat stack
flat_stack: {{radius_mm: {0}, ceramic_thickness_mm: {1}, cement_thickness_um: {2}, die_thickness_mm: {0}}}
materials:
  crown: {{youngs_modulus_GPa: {3}, poisson_ratio: {4}, strength: {{characteristic_MPa: 1000, specimen: assumed}}}}
{5}  die: {{youngs_modulus_GPa: {6}, poisson_ratio: 0.31}}
bites:
  - name: ball
    {7}
accuracy: {{{8}}}
)",
      stack.radius_mm, stack.thickness_mm, stack.cement_um, stack.ceramic_GPa, stack.ceramic_poisson, cement,
      stack.die_GPa, touch, stack.accuracy);
  const Case whole = parse_case(text, "flat_stack.yaml", builtin_materials());
  return simulate(build_model(whole.variants[0].case_file, whole.library));
}

const ZonePeak& peak_of(const Result& result, Zone zone) {
  for (const ZonePeak& peak : result.report.bites.at(0).peaks)
    if (peak.zone == zone) return peak;
  throw std::runtime_error("no peak in that zone");
}

}  // namespace crownproof
