// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/tables/column.hpp"

#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "io/record/run_record.hpp"
#include "io/text/version.hpp"
#include "io/words/names.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/model/model.hpp"
#include "solver/strength/fracture_outlook.hpp"

namespace crownproof {
namespace {

/// Seven digits; empty where there is no finite number (no tension: no safety factor).
std::string text_of(double value) {
  return std::isfinite(value) ? fmt::format("{:.7g}", value) : std::string();
}

std::string text_of(const std::optional<double>& value) {
  return value ? text_of(*value) : std::string();
}

/// Lengths that were not measured are zero.
std::string measured(double length_mm) {
  return length_mm > 0 ? text_of(length_mm) : std::string();
}

/// Something about the probability of fracture; empty where it is withheld.
template <class Value>
std::string if_known(const SummaryRow& row, const Value& value) {
  return row.bite.fracture.withheld ? std::string() : value(row.bite.fracture);
}

std::vector<SummaryColumn> shape_columns() {
  return {
      {"variant", "label of the variant; the title in a plain run",
       [](const SummaryRow& r) { return label_of(r.variant); }},
      {"asked_thickness_mm", "occlusal thickness that the case asks for",
       [](const SummaryRow& r) { return text_of(r.variant.asked_thickness_mm); }},
      {"fossa_thickness_mm", "measured on the mesh by nearest distance at the central fossa",
       [](const SummaryRow& r) { return measured(r.variant.report.thickness.fossa.thickness_mm); }},
      {"smallest_thickness_mm", "smallest thickness anywhere but at the finish line",
       [](const SummaryRow& r) { return measured(r.variant.report.thickness.smallest.thickness_mm); }},
  };
}

std::vector<SummaryColumn> peak_columns() {
  return {
      {"bite", "name of the bite", [](const SummaryRow& r) { return r.bite.name; }},
      {"zone",
       "`contact`, `occlusal`, `axial`, `finish_line`, `intaglio`, `under_contact`, `interior`; of a bench "
       "specimen "
       "`surface`, "
       "`interior`",
       [](const SummaryRow& r) { return zone_name(r.peak.zone); }},
      {"principal_MPa", "highest first principal stress of the zone, at `x_mm`, `y_mm`, `z_mm`",
       [](const SummaryRow& r) { return text_of(r.peak.principal_MPa); }},
      {"in_layer_MPa", "layered material: highest tension within the layers",
       [](const SummaryRow& r) { return text_of(r.peak.in_layer_MPa); }},
      {"across_layer_MPa",
       "layered material: opening and shear of a layer plane as one tension (see theory.md); a plane pressed "
       "shut "
       "has none unless the case lets planes slide",
       [](const SummaryRow& r) { return text_of(r.peak.across_layer_MPa); }},
      {"mechanism",
       "the way of breaking with the smallest safety factor in the zone: `breaks across the body`, `opens "
       "between "
       "layers` or `slides between layers`",
       [](const SummaryRow& r) { return mechanism_words(r.peak.mechanism); }},
      {"tension_MPa", "the tension that decides there",
       [](const SummaryRow& r) { return text_of(r.peak.tension_MPa); }},
  };
}

/// How well the deciding tension is known, and what it means.
std::vector<SummaryColumn> margin_columns() {
  return {
      {"relative_uncertainty",
       "numerical: `tension_MPa` is trusted to this part of itself, plus or minus; from the sequence of "
       "meshes, at least the scouting mesh and the asked one",
       [](const SummaryRow& r) { return text_of(r.peak.relative_uncertainty); }},
      {"settling",
       "what `tension_MPa` does from mesh to mesh: `one mesh only`, `two meshes`, `settles`, `swings`, or "
       "`does "
       "not settle`; of the last no number can be believed",
       [](const SummaryRow& r) { return settling_words(r.peak.settling); }},
      {"strength_MPa",
       "the strength that `tension_MPa` is compared with: what 95 % of the bench specimens exceed where the "
       "Weibull modulus is known, else (or if the case says so) the characteristic strength; of it what is "
       "left "
       "after `strength.years`",
       [](const SummaryRow& r) { return text_of(r.peak.strength_MPa); }},
      {"safety_factor", "`strength_MPa / tension_MPa`",
       [](const SummaryRow& r) { return text_of(r.peak.safety_factor); }},
      {"required_safety_factor", "what the case asks for",
       [](const SummaryRow& r) { return text_of(r.variant.model->requirement.safety_factor); }},
      {"x_mm", "place of `principal_MPa`", [](const SummaryRow& r) { return text_of(r.peak.at.x()); }},
      {"y_mm", "the same", [](const SummaryRow& r) { return text_of(r.peak.at.y()); }},
      {"z_mm", "the same", [](const SummaryRow& r) { return text_of(r.peak.at.z()); }},
      {"tension_x_mm", "place of `tension_MPa`",
       [](const SummaryRow& r) { return text_of(r.peak.tension_at.x()); }},
      {"tension_y_mm", "the same", [](const SummaryRow& r) { return text_of(r.peak.tension_at.y()); }},
      {"tension_z_mm", "the same", [](const SummaryRow& r) { return text_of(r.peak.tension_at.z()); }},
      {"governs_bite", "`yes` for the zone with the smallest safety factor of the bite",
       [](const SummaryRow& r) -> std::string {
         return r.peak.zone == r.bite.tension.governing.zone ? "yes" : "no";
       }},
  };
}

/// Figures of the whole bite, the same in each of its rows.
std::vector<SummaryColumn> fracture_columns() {
  return {
      {"bite_verdict", "`below`, `above` or `undecided`",
       [](const SummaryRow& r) { return verdict_name(r.bite.verdict); }},
      {"bite_fracture_probability",
       "probability of fracture of the bite at its load, from the flaws of the bench specimen; empty if it "
       "is "
       "withheld",
       [](const SummaryRow& r) {
         return if_known(r, [](const FractureOutlook& f) { return text_of(f.now.probability); });
       }},
      {"bite_fracture_probability_low",
       "lower of the 90 % bounds from the bench test, if the material has bounds",
       [](const SummaryRow& r) {
         return if_known(r, [](const FractureOutlook& f) {
           return f.now.bounds ? text_of(f.now.bounds->low) : std::string();
         });
       }},
      {"bite_fracture_probability_high", "upper of these bounds",
       [](const SummaryRow& r) {
         return if_known(r, [](const FractureOutlook& f) {
           return f.now.bounds ? text_of(f.now.bounds->high) : std::string();
         });
       }},
      {"bite_fracture_probability_after_years", "the same after `strength.years` of chewing",
       [](const SummaryRow& r) {
         const auto& later = r.bite.fracture.later;
         return later ? text_of(later->probability) : std::string();
       }},
      {"bite_load_at_5_percent_N", "resultant force of the bite at which 5 % break today, contacts unchanged",
       [](const SummaryRow& r) { return text_of(r.bite.fracture.loads.at_5_percent_N); }},
      {"bite_load_at_50_percent_N", "resultant force at which half of them break today",
       [](const SummaryRow& r) { return text_of(r.bite.fracture.loads.at_50_percent_N); }},
  };
}

std::vector<SummaryColumn> limit_columns() {
  const auto if_asked = [](auto value) {
    return [value](const SummaryRow& r) {
      return r.bite.fracture_verdict ? value(*r.bite.fracture_verdict) : std::string();
    };
  };
  return {
      {"allowed_fracture_probability",
       "`strength.allowed_fracture_probability`, or the default 0.05 where a probability can be computed",
       if_asked([](const FractureVerdict& v) { return text_of(v.allowed); })},
      {"bite_fracture_verdict", "`below`, `above` or `undecided` of the probability alone",
       if_asked([](const FractureVerdict& v) { return verdict_name(v.verdict); })},
      {"bite_decided_by", "`tension` or `fracture_probability`, whichever made `bite_verdict`",
       if_asked([](const FractureVerdict& v) -> std::string {
         return v.decides ? "fracture_probability" : "tension";
       })},
      {"specimen_formula_MPa", "bench test: stress by the standard's formula",
       [](const SummaryRow& r) {
         const auto& specimen = r.variant.report.specimen;
         return specimen ? text_of(specimen->formula_MPa) : std::string();
       }},
      {"specimen_field_MPa", "bench test: stress computed in the middle of the tensile face",
       [](const SummaryRow& r) {
         const auto& specimen = r.variant.report.specimen;
         return specimen ? text_of(specimen->field_MPa) : std::string();
       }},
      // In every row: rows are copied and sorted, and a line of its own would break what reads tables.
      {"caution", "what these figures must not be used for", [](const SummaryRow&) { return caution(); }},
  };
}

std::vector<SummaryColumn> all_columns() {
  std::vector<SummaryColumn> all;
  for (const auto& part :
       {shape_columns(), peak_columns(), margin_columns(), fracture_columns(), limit_columns()})
    all.insert(all.end(), part.begin(), part.end());
  return all;
}

}  // namespace

const std::vector<SummaryColumn>& summary_columns() {
  static const std::vector<SummaryColumn> columns = all_columns();
  return columns;
}

std::string summary_columns_page() {
  std::string page = "| column | meaning |\n|---|---|\n";
  for (const SummaryColumn& column : summary_columns()) {
    page += fmt::format("| `{}` | {} |\n", column.name, column.meaning);
    if (column.name == "variant")
      page += "| one column for each varied key | value as written in the case |\n";
  }
  return page;
}

}  // namespace crownproof
