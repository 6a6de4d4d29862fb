// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/study_picture.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/pictures/picture_scale.hpp"
#include "io/record/run_record.hpp"
#include "io/text/text_layout.hpp"
#include "io/text/version.hpp"
#include "solver/model/model.hpp"

namespace crownproof {
namespace {

/// Most panels of a study's picture; beyond, it would be too large to draw and to read.
constexpr std::size_t most_panels = 24;

/// The bite with the smallest safety factor of all variants: the one the picture of the study shows.
std::size_t worst_bite(const std::vector<std::vector<StudyPanel>>& panels) {
  std::size_t bite = 0;
  double smallest = INFINITY;
  for (const auto& row : panels)
    for (std::size_t b = 0; b < row.size(); ++b)
      if (row[b].safety_factor < smallest) {
        smallest = row[b].safety_factor;
        bite = b;
      }
  return bite;
}

/// All variants are held to the same limits, so that marks on the common bar are true of each.
bool alike(std::span<const VariantRecord> variants) {
  const auto texts = [](const VariantRecord& v) {
    std::vector<std::string> out{bar_title(*v.model)};
    for (const BarMark& mark : bar_limits(*v.model)) out.push_back(mark.text);
    return out;
  };
  return std::all_of(variants.begin(), variants.end(),
                     [&](const VariantRecord& v) { return texts(v) == texts(variants.front()); });
}

/// What was varied, a line each, then the outcome, and the limits where the bar cannot show them.
std::string caption_of(const VariantRecord& variant, const StudyPanel& panel, bool same_limits) {
  const std::string label = label_of(variant), comma = ", ";
  std::string caption;
  for (std::size_t from = 0; from < label.size();) {
    const std::size_t to = std::min(label.find(comma, from), label.size());
    caption += label.substr(from, to - from) + '\n';
    from = to + comma.size();
  }
  caption += panel.outcome;
  if (same_limits) return caption;
  for (const BarMark& limit : bar_limits(*variant.model)) caption += fmt::format("\n{} MPa", limit.text);
  return caption;
}

}  // namespace

Scene study_scene(const std::string& title, std::span<const VariantRecord> variants,
                  const std::vector<std::vector<StudyPanel>>& panels) {
  const std::size_t bite = worst_bite(panels);
  const bool same_limits = alike(variants);
  Scene scene;
  scene.title = padded(title, std::min<std::size_t>(90, display_width(title)));
  scene.caution = caution();
  if (!variants.empty()) {
    scene.bar_title = bar_title(*variants.front().model);
    if (same_limits) scene.bar_marks = bar_limits(*variants.front().model);
  }
  double highest = 0;
  for (std::size_t v = 0; v < panels.size(); ++v) {
    if (bite >= panels[v].size()) continue;
    const StudyPanel& panel = panels[v][bite];
    highest = std::max(highest, panel.highest_MPa);
    if (scene.views.size() == most_panels) continue;
    scene.views.push_back(panel.view);
    scene.views.back().caption = caption_of(variants[v], panel, same_limits);
    scene.subtitle = fmt::format("{} {} section through the point that decides, one scale for all",
                                 variants[v].model->specimen ? "test" : "bite",
                                 panel.bite + (variants[v].model->specimen ? ":" : ": buccolingual"));
  }
  if (panels.size() > most_panels)
    scene.note =
        fmt::format("The first {} of {} variants; all are in the tables.", most_panels, panels.size());
  scene.highest = round_up(highest);
  return scene;
}

}  // namespace crownproof
