// SPDX-License-Identifier: AGPL-3.0-or-later
// Two diagrams of a material's strength, each as a table (CSV) and a chart (SVG): against the angle between
// layer normal and tension, and against time and probability.
#pragma once

#include <string>
#include <vector>

#include "solver/material/layer_planes.hpp"

namespace crownproof {

struct Chewing;
struct MaterialStrength;

struct ChartFile {
  std::string name;     ///< of the file
  std::string content;  ///< text
};

/// strength_against_angle.csv and .svg of a layered material with both strengths; else nothing.
std::vector<ChartFile> angle_charts(const std::string& material, const MaterialStrength& strength,
                                    const LayerPlanes& planes);

/// The same table for the terminal, with the model, its source and its caveat.
std::string angle_table_text(double in_layer_MPa, double across_layer_MPa, const LayerPlanes& planes);

/// strength_probability_time.csv and a chart for each strength of the material; nothing if its scatter or
/// fatigue is not known. `chewing`: cycles a year and contact time.
std::vector<ChartFile> time_charts(const std::string& material, const MaterialStrength& strength,
                                   const Chewing& chewing);

}  // namespace crownproof
