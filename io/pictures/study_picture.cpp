// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/study_picture.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/pictures/picture_scale.hpp"
#include "io/record/run_record.hpp"
#include "io/text/version.hpp"
#include "solver/model/model.hpp"

namespace crownproof {
namespace {

/// Most panels of a study's picture; beyond, it would be too large to draw and to read.
constexpr std::size_t most_panels = 18;

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

std::vector<ScaleMark> limits_of(const VariantRecord& variant) {
  return limits_on_scale(*variant.model, variant.pictures.quantity);
}

/// All variants are held to the same limits, so that marks on the common bar are true of each.
bool same_limits(std::span<const VariantRecord> variants) {
  const auto texts = [](const VariantRecord& v) {
    std::vector<std::string> out;
    for (const ScaleMark& mark : limits_of(v)) out.push_back(mark.text);
    return out;
  };
  return std::all_of(variants.begin(), variants.end(),
                     [&](const VariantRecord& v) { return texts(v) == texts(variants.front()); });
}

/// One scale for all; strengths that differ are not named on it.
SceneScale common_scale(std::span<const VariantRecord> variants, double highest) {
  const auto scale_of = [&](const VariantRecord& v) {
    return stress_scale(*v.model, v.pictures.quantity, highest);
  };
  SceneScale scale = scale_of(variants.front());
  const bool same_title = std::all_of(variants.begin(), variants.end(), [&](const VariantRecord& v) {
    return scale_of(v).title == scale.title;
  });
  if (!same_title)
    scale.title = variants.front().pictures.quantity == PictureQuantity::share_of_strength
                      ? "Share of the strength used, % (of each variant's own)"
                      : "Tension that decides, MPa";
  if (!same_limits(variants)) scale.marks.clear();
  return scale;
}

/// What was varied, a line each, then the outcome, and the limits where the bar cannot show them.
std::string caption_of(const VariantRecord& variant, const StudyPanel& panel, bool limits_on_bar) {
  const std::string label = label_of(variant), comma = ", ";
  std::string caption;
  for (std::size_t from = 0; from < label.size();) {
    const std::size_t to = std::min(label.find(comma, from), label.size());
    caption += label.substr(from, to - from) + '\n';
    from = to + comma.size();
  }
  caption += panel.outcome;
  if (limits_on_bar) return caption;
  for (const ScaleMark& limit : limits_of(variant)) caption += "\n" + limit.text;
  return caption;
}

}  // namespace

Scene study_scene(const std::string& title, std::span<const VariantRecord> variants,
                  const std::vector<std::vector<StudyPanel>>& panels) {
  const std::size_t bite = worst_bite(panels);
  const bool limits_on_bar = same_limits(variants);
  Scene scene;
  scene.title = title;
  scene.caution = caution();
  double highest = 0;
  for (std::size_t v = 0; v < panels.size(); ++v) {
    if (bite >= panels[v].size()) continue;
    const StudyPanel& panel = panels[v][bite];
    highest = std::max(highest, panel.highest);
    if (scene.views.size() == most_panels) continue;
    scene.views.push_back(panel.view);
    scene.views.back().caption = caption_of(variants[v], panel, limits_on_bar);
    scene.subtitle = panel.what + ", one scale for all";
  }
  if (panels.size() > most_panels)
    scene.note =
        fmt::format("The first {} of {} variants; all are in the tables.", most_panels, panels.size());
  if (!variants.empty()) scene.scale = common_scale(variants, highest);
  return scene;
}

}  // namespace crownproof
