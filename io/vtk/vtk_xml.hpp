// SPDX-License-Identifier: AGPL-3.0-or-later
// The VTK XML container for unstructured grids (VTK file formats, vtk.org), written by hand: raw appended
// binary is a few headers and the bytes of the arrays, needs no library and is as fast as the disk.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

namespace crownproof {

/// A data array of the file: its bytes and what they mean.
struct VtkArray {
  std::string name;
  std::string type;  ///< VTK's name of the number type, e.g. Float64
  int components = 1;
  std::vector<std::string> component_names;  ///< empty, or one a component
  std::vector<std::byte> bytes;
};

/// A named list of texts among the field data.
struct VtkTexts {
  std::string name;
  std::vector<std::string> texts;
};

inline constexpr int vtk_quadratic_triangle = 22, vtk_quadratic_tetrahedron = 24;

/// A grid of cells that all have the same number of nodes.
struct VtkGrid {
  VtkArray points;        ///< 3 components
  VtkArray connectivity;  ///< Int32, `nodes_per_cell` a cell
  int nodes_per_cell = 10;
  int cell_type = vtk_quadratic_tetrahedron;
  std::vector<VtkArray> point_data, cell_data, field_data;
  std::vector<VtkTexts> field_texts;
};

namespace detail {
template <class T>
constexpr const char* vtk_type_name();
template <>
constexpr const char* vtk_type_name<double>() {
  return "Float64";
}
template <>
constexpr const char* vtk_type_name<float>() {
  return "Float32";
}
template <>
constexpr const char* vtk_type_name<std::int32_t>() {
  return "Int32";
}
template <>
constexpr const char* vtk_type_name<std::int8_t>() {
  return "Int8";
}
template <>
constexpr const char* vtk_type_name<std::uint8_t>() {
  return "UInt8";
}
}  // namespace detail

/// An array from numbers, tuple after tuple.
template <class T>
VtkArray vtk_array(std::string name, int components, const std::vector<T>& values,
                   std::vector<std::string> component_names = {}) {
  const auto bytes = std::as_bytes(std::span(values));
  return {std::move(name),
          detail::vtk_type_name<T>(),
          components,
          std::move(component_names),
          {bytes.begin(), bytes.end()}};
}

/// Writes the grid as a .vtu file. Throws ResultsError.
void write_vtk_grid(const std::filesystem::path& path, const VtkGrid& grid);

}  // namespace crownproof
