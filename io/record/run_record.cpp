// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/record/run_record.hpp"

namespace crownproof {

VariantRecord without_fields(const VariantRecord& variant) {
  VariantRecord light{.label = variant.label,
                      .varied = variant.varied,
                      .model = variant.model,
                      .asked_thickness_mm = variant.asked_thickness_mm,
                      .timings = variant.timings,
                      .pass_memory_GiB = variant.pass_memory_GiB};
  const Result& full = variant.result;
  light.result.mesh.region_names = full.mesh.region_names;
  light.result.quality = full.quality;
  light.result.thickness = full.thickness;
  light.result.region_stiffness = full.region_stiffness;
  light.result.levels = full.levels;
  light.result.copies = full.copies;
  light.result.specimen = full.specimen;
  light.result.passes = full.passes;
  light.result.why_stopped = full.why_stopped;
  light.result.warnings = full.warnings;
  light.result.withheld = full.withheld;
  for (const BiteResult& bite : full.bites) {
    BiteResult told;
    told.name = bite.name;
    told.solve = bite.solve;
    told.balance = bite.balance;
    told.peaks = bite.peaks;
    told.governing = bite.governing;
    told.verdict = bite.verdict;
    told.explanation = bite.explanation;
    told.fracture = bite.fracture;
    told.fracture_verdict = bite.fracture_verdict;
    light.result.bites.push_back(std::move(told));
  }
  return light;
}

std::string label_of(const VariantRecord& variant) {
  return variant.label.empty() ? variant.model.title : variant.label;
}

}  // namespace crownproof
