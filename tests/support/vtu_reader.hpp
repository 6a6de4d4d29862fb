// SPDX-License-Identifier: AGPL-3.0-or-later
// Reads a .vtu file with VTK's own reader, which knows nothing of our writer.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace crownproof {

/// Arrays by name, as doubles, tuple after tuple.
struct VtuContent {
  std::vector<double> points;  ///< 3 a point
  std::vector<int> cell_types;
  std::vector<std::vector<int>> cells;
  std::map<std::string, std::vector<double>> point_data, cell_data, field_data;
  std::map<std::string, std::vector<std::string>> field_texts;
  std::map<std::string, std::vector<std::string>> component_names;  ///< of point data
  bool whole = false;                                               ///< the reader reported no error
};
VtuContent read_vtu(const std::filesystem::path& path);

}  // namespace crownproof
