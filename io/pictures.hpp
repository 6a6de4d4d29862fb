// SPDX-License-Identifier: AGPL-3.0-or-later
// Which pictures are made of a case and what is on them.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "io/run_record.hpp"
#include "io/scene.hpp"

namespace crownproof {

inline constexpr int picture_width = 1400, picture_height = 1000, study_picture_height = 720;

/// A picture to draw and the ending of its file name, e.g. "crown".
struct NamedScene {
  std::string name;
  Scene scene;
};

/// Three pictures of a bite on one scale: the outside of the crown, the buccolingual section through the
/// point that decides, and the intaglio from below. Of a bench specimen, whole: the loaded side, a section
/// along it, the side away from the load.
std::vector<NamedScene> pictures_of_bite(const VariantRecord& variant, std::size_t bite);

/// The section of one bite in one variant, kept for the study's picture when the fields are gone.
struct StudyPanel {
  SceneView view;
  double highest_MPa = 0;
  double safety_factor = 0;
  std::string bite;
};
StudyPanel study_panel(const VariantRecord& variant, std::size_t bite);

/// The same bite in every variant, side by side on one scale. `panels`: [variant][bite]. The bite is the one
/// with the smallest safety factor of all.
Scene study_scene(const std::string& title, std::span<const VariantRecord> variants,
                  const std::vector<std::vector<StudyPanel>>& panels);

}  // namespace crownproof
