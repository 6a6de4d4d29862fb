// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/pictures.hpp"

#include <fmt/format.h>

#include "io/pictures/bite_view.hpp"
#include "io/pictures/crown_views.hpp"
#include "io/pictures/picture_scale.hpp"
#include "io/pictures/specimen_views.hpp"
#include "io/record/run_record.hpp"
#include "io/text/version.hpp"
#include "io/words/names.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/model.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {
namespace {

std::string verdict_words(Verdict verdict) {
  return verdict == Verdict::undecided ? "undecided" : verdict_name(verdict) + " the limit";
}

/// The tension that decides, and the verdict of both limits.
std::string note_of(const BiteView& b) {
  const ZonePeak& g = b.bite.tension.governing;
  const double asked = b.variant.model->requirement.safety_factor;
  const bool by_probability = b.bite.fracture_verdict && b.bite.fracture_verdict->decides;
  if (!(g.tension_MPa > no_tension_MPa)) return "No tension anywhere.";
  return fmt::format(
      "Decides: {:.0f} MPa ({}), {} at {:.0f} MPa; safety factor {:.2f}, asked {:g}. Verdict: {}{}.",
      g.tension_MPa, zone_name(g.zone), mechanism_words(g.mechanism), g.strength_MPa, g.safety_factor, asked,
      verdict_words(b.bite.verdict), by_probability ? ", by the probability of fracture" : "");
}

Scene scene_of(const BiteView& b, const std::string& what, SceneView view) {
  Scene scene;
  scene.title = b.variant.model->title;
  scene.subtitle = fmt::format("{}{} {}: {}", b.variant.label.empty() ? "" : b.variant.label + ", ",
                               b.variant.model->specimen ? "test" : "bite", b.bite.name, what);
  scene.note = note_of(b);
  scene.caution = caution();
  scene.scale = stress_scale(*b.variant.model, b.quantity, b.highest);
  scene.views = {std::move(view)};
  return scene;
}

}  // namespace

std::vector<NamedScene> pictures_of_bite(const VariantRecord& variant, const Fields& fields,
                                         std::size_t index) {
  const BiteView b(variant, fields, index);
  if (variant.model->specimen)
    return {{"loaded_side", scene_of(b, "seen from the loaded side", loaded_side_view(b))},
            {"section", scene_of(b, "section along the specimen", specimen_section(b))},
            {"tensile_side", scene_of(b, "seen from the side away from the load", tensile_side_view(b))}};
  const std::string section = fmt::format("buccolingual section {}, where it decides", section_place(b));
  return {
      {"crown", scene_of(b, "the outside, contacts outlined", outside_view(b))},
      {"section", scene_of(b, section, section_view(b))},
      {"intaglio", scene_of(b, "the intaglio seen from below, without cement and die", intaglio_view(b))}};
}

StudyPanel study_panel(const VariantRecord& variant, const Fields& fields, std::size_t index) {
  const BiteView b(variant, fields, index);
  const ZonePeak& governing = b.bite.tension.governing;
  const std::string outcome =
      fmt::format("safety factor {:.2f}, {}", governing.safety_factor, verdict_name(b.bite.verdict));
  if (variant.model->specimen)
    return {specimen_section(b), b.highest, governing.safety_factor,
            "test " + b.bite.name + ": sections along the specimen", outcome};
  return {section_of_crown(b), b.highest, governing.safety_factor,
          fmt::format("bite {}: {}sections where it decides", b.bite.name,
                      b.sides().empty() ? "" : "buccolingual "),
          outcome};
}

}  // namespace crownproof
