// SPDX-License-Identifier: AGPL-3.0-or-later
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "io/tables/tables.hpp"
#include "io/words/names.hpp"

namespace crownproof {
namespace {

/// Quoted where RFC 4180 asks for it.
std::string cell(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

/// Seven digits; empty where there is no finite number (no tension: no safety factor).
std::string cell(double value) {
  return std::isfinite(value) ? fmt::format("{:.7g}", value) : std::string();
}

std::string line(const std::vector<std::string>& cells) {
  return fmt::format("{}\r\n", fmt::join(cells, ","));
}

std::vector<std::string> header(std::span<const VariantRecord> variants) {
  std::vector<std::string> names{"variant"};
  if (!variants.empty())
    for (const VariedValue& varied : variants.front().varied) names.push_back(cell(varied.key));
  for (const char* name : {"asked_thickness_mm",
                           "fossa_thickness_mm",
                           "smallest_thickness_mm",
                           "bite",
                           "zone",
                           "principal_MPa",
                           "in_layer_MPa",
                           "across_layer_MPa",
                           "mechanism",
                           "tension_MPa",
                           "relative_uncertainty",
                           "settling",
                           "strength_MPa",
                           "safety_factor",
                           "required_safety_factor",
                           "x_mm",
                           "y_mm",
                           "z_mm",
                           "governs_bite",
                           "bite_verdict",
                           "bite_fracture_probability",
                           "bite_fracture_probability_low",
                           "bite_fracture_probability_high",
                           "bite_fracture_probability_after_years",
                           "bite_load_at_5_percent_N",
                           "bite_load_at_50_percent_N",
                           "allowed_fracture_probability",
                           "bite_fracture_verdict",
                           "bite_decided_by",
                           "specimen_formula_MPa",
                           "specimen_field_MPa"})
    names.emplace_back(name);
  return names;
}

/// Figures of the whole bite, the same in each of its rows; empty where they are withheld.
std::vector<std::string> fracture_cells(const FractureOutlook& fracture) {
  const auto maybe = [](const std::optional<double>& value) { return value ? cell(*value) : std::string(); };
  const bool known = !fracture.withheld;
  return {known ? cell(fracture.now.probability) : "",
          known && fracture.now.bounds ? cell(fracture.now.bounds->low) : "",
          known && fracture.now.bounds ? cell(fracture.now.bounds->high) : "",
          fracture.later ? cell(fracture.later->probability) : "",
          maybe(fracture.loads.at_5_percent_N),
          maybe(fracture.loads.at_50_percent_N)};
}

/// Empty without an allowed probability.
std::vector<std::string> fracture_verdict_cells(const std::optional<FractureVerdict>& verdict) {
  if (!verdict) return {"", "", ""};
  return {cell(verdict->allowed), verdict_name(verdict->verdict),
          verdict->decides ? "fracture_probability" : "tension"};
}

std::vector<std::string> row(const VariantRecord& variant, const BiteReport& bite, const ZonePeak& peak) {
  std::vector<std::string> cells{cell(label_of(variant))};
  for (const VariedValue& varied : variant.varied) cells.push_back(cell(varied.value));
  const ThicknessReport& thickness = variant.report.thickness;
  cells.push_back(variant.asked_thickness_mm ? cell(*variant.asked_thickness_mm) : "");
  cells.push_back(thickness.fossa.thickness_mm > 0 ? cell(thickness.fossa.thickness_mm) : "");
  cells.push_back(thickness.smallest.thickness_mm > 0 ? cell(thickness.smallest.thickness_mm) : "");
  cells.push_back(cell(bite.name));
  cells.push_back(zone_name(peak.zone));
  for (const double value : {peak.principal_MPa, peak.in_layer_MPa, peak.across_layer_MPa})
    cells.push_back(cell(value));
  cells.push_back(cell(mechanism_words(peak.mechanism)));
  for (const double value : {peak.tension_MPa, peak.relative_uncertainty}) cells.push_back(cell(value));
  cells.push_back(settling_words(peak.settling));
  for (const double value : {peak.strength_MPa, peak.safety_factor, variant.model.requirement.safety_factor,
                             peak.at.x(), peak.at.y(), peak.at.z()})
    cells.push_back(cell(value));
  cells.emplace_back(peak.zone == bite.tension.governing.zone ? "yes" : "no");
  cells.push_back(verdict_name(bite.verdict));
  for (std::string& text : fracture_cells(bite.fracture)) cells.push_back(std::move(text));
  for (std::string& text : fracture_verdict_cells(bite.fracture_verdict)) cells.push_back(std::move(text));
  const auto& specimen = variant.report.specimen;
  cells.push_back(specimen ? cell(specimen->formula_MPa) : "");
  cells.push_back(specimen ? cell(specimen->field_MPa) : "");
  return cells;
}

}  // namespace

std::string summary_csv(std::span<const VariantRecord> variants) {
  std::string text = line(header(variants));
  for (const VariantRecord& variant : variants)
    for (const BiteReport& bite : variant.report.bites)
      for (const ZonePeak& peak : bite.peaks) text += line(row(variant, bite, peak));
  return text;
}

}  // namespace crownproof
