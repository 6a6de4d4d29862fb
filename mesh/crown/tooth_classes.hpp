// SPDX-License-Identifier: AGPL-3.0-or-later
// Tooth classes as data: sizes and the places of cusps and ridges. To add a tooth, add a row.
#pragma once

#include <string>
#include <vector>

namespace crownproof {

/// A cusp, or a marginal ridge, which is a cusp drawn out in the buccolingual direction.
struct Peak {
  std::string name;     ///< as in landmark names, e.g. "mesiobuccal_cusp", "mesial_marginal_ridge"
  double x = 0, y = 0;  ///< place as a fraction of half the mesiodistal / buccolingual size
  double height = 1;    ///< above the central fossa, as a fraction of the cusp height
  bool is_ridge = false;
  double length = 1;  ///< > 1: drawn out mesiodistally, as the one buccal cusp of a premolar is
  /// Bites into a fossa of the opposite tooth: lower buccal and upper lingual (palatal) cusps.
  bool functional = false;
};

/// Natural sizes (mm) of one tooth class.
struct ToothClass {
  std::string name;
  double mesiodistal_mm = 0;
  double buccolingual_mm = 0;
  double height_mm = 0;       ///< finish line to the highest cusp tip
  double cusp_height_mm = 0;  ///< central fossa (without its fissure) to the highest cusp tip
  double fissure_depth_mm = 0;
  double contour_mesiodistal =
      0.5;  ///< height of contour as a fraction of the crown's height: mesial and distal
  double contour_buccolingual = 0.4;  ///< buccal and lingual
  double outline_power = 2.7;         ///< 2: elliptic seen from above; larger: squarer
  double outline_shear = 0;           ///< rhomboid outline of upper molars
  std::vector<Peak> peaks;
};

/// All classes there are.
const std::vector<ToothClass>& tooth_classes();

/// A class by its name. Throws GeometryError that lists the names there are.
const ToothClass& tooth_class(const std::string& name);

}  // namespace crownproof
