// SPDX-License-Identifier: AGPL-3.0-or-later
// One picture for a whole study.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "io/pictures/scene.hpp"

namespace crownproof {

struct VariantRecord;

/// Pixels: strips for titles and notes, and each row of panels.
inline constexpr int study_strips_height = 190, study_row_height = 570;

/// The section of one bite in one variant, kept for the study's picture when the fields are gone.
struct StudyPanel {
  SceneView view;
  double highest_MPa = 0;
  double safety_factor = 0;
  std::string bite;
  std::string outcome;  ///< safety factor and verdict in words
};

/// The same bite in every variant (the first 24 of them), side by side on one scale. `panels`:
/// [variant][bite]. The bite is the one with the smallest safety factor of all. Where the variants are held
/// to different limits these stand in the captions instead of on the common bar.
Scene study_scene(const std::string& title, std::span<const VariantRecord> variants,
                  const std::vector<std::vector<StudyPanel>>& panels);

}  // namespace crownproof
