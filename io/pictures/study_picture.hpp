// SPDX-License-Identifier: AGPL-3.0-or-later
// One picture for a whole study.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "io/drawing/scene.hpp"

namespace crownproof {

struct VariantRecord;

/// The section of one bite in one variant, kept for the study's picture when the fields are gone.
struct StudyPanel {
  SceneView view;
  double highest = 0;  ///< of the quantity shown
  double safety_factor = 0;
  std::string what;     ///< the bite and how it is cut
  std::string outcome;  ///< safety factor and verdict in words
};

/// The same bite in every variant (the first 18 of them), side by side on one scale. `panels`:
/// [variant][bite]. The bite is the one with the smallest safety factor of all. Where the variants are held
/// to different limits these stand in the captions instead of on the common bar.
Scene study_scene(const std::string& title, std::span<const VariantRecord> variants,
                  const std::vector<std::vector<StudyPanel>>& panels);

}  // namespace crownproof
