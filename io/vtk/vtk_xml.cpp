// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/vtk/vtk_xml.hpp"

#include <bit>

#include <fmt/format.h>

#include "io/machine/output_file.hpp"
#include "io/text/xml_text.hpp"

namespace crownproof {
namespace {

/// Bytes of one number of an array.
std::size_t number_size(const VtkArray& array) {
  if (array.type.ends_with("64")) return 8;
  return array.type.ends_with("32") ? 4 : 1;
}

std::size_t n_tuples(const VtkArray& array) {
  return array.bytes.size() / (number_size(array) * static_cast<std::size_t>(array.components));
}

/// Collects headers; the arrays follow them in the same order, each behind its size.
class Headers {
 public:
  void line(const std::string& text) { text_ += text + "\n"; }

  void array(const VtkArray& array, bool with_tuples = false) {
    std::string header = fmt::format(R"(<DataArray type="{}" Name="{}" NumberOfComponents="{}")", array.type,
                                     xml_escaped(array.name), array.components);
    for (std::size_t i = 0; i < array.component_names.size(); ++i)
      header += fmt::format(R"( ComponentName{}="{}")", i, xml_escaped(array.component_names[i]));
    if (with_tuples) header += fmt::format(R"( NumberOfTuples="{}")", n_tuples(array));
    line(header + fmt::format(R"( format="appended" offset="{}"/>)", offset_));
    offset_ += sizeof(std::uint64_t) + array.bytes.size();
    arrays_.push_back(&array);
  }

  /// Texts are stored as character codes, each text ended by 0.
  void texts(const VtkTexts& texts) {
    line(fmt::format(R"(<Array type="String" Name="{}" NumberOfTuples="{}" format="ascii">)",
                     xml_escaped(texts.name), texts.texts.size()));
    std::string codes;
    for (const std::string& text : texts.texts) {
      for (const char c : text) codes += std::to_string(static_cast<unsigned char>(c)) + " ";
      codes += "0 ";
    }
    line(codes);
    line("</Array>");
  }

  const std::string& text() const { return text_; }
  const std::vector<const VtkArray*>& arrays() const { return arrays_; }

 private:
  std::string text_;
  std::uint64_t offset_ = 0;
  std::vector<const VtkArray*> arrays_;
};

}  // namespace

void write_vtk_grid(const std::filesystem::path& path, const VtkGrid& grid) {
  static_assert(std::endian::native == std::endian::little, "the header below says LittleEndian");
  const std::size_t cells = n_tuples(grid.connectivity) / static_cast<std::size_t>(grid.nodes_per_cell);
  std::vector<std::int32_t> ends(cells);
  for (std::size_t c = 0; c < cells; ++c) ends[c] = static_cast<std::int32_t>(c + 1) * grid.nodes_per_cell;
  const VtkArray offsets = vtk_array("offsets", 1, ends);
  const VtkArray types =
      vtk_array("types", 1, std::vector<std::uint8_t>(cells, static_cast<std::uint8_t>(grid.cell_type)));

  Headers headers;
  headers.line(R"(<?xml version="1.0"?>)");
  headers.line(
      R"(<VTKFile type="UnstructuredGrid" version="1.0" byte_order="LittleEndian" header_type="UInt64">)");
  headers.line("<UnstructuredGrid>\n<FieldData>");
  for (const auto& array : grid.field_data) headers.array(array, true);
  for (const auto& texts : grid.field_texts) headers.texts(texts);
  headers.line(fmt::format("</FieldData>\n<Piece NumberOfPoints=\"{}\" NumberOfCells=\"{}\">",
                           n_tuples(grid.points), cells));
  headers.line("<PointData>");
  for (const auto& array : grid.point_data) headers.array(array);
  headers.line("</PointData>\n<CellData>");
  for (const auto& array : grid.cell_data) headers.array(array);
  headers.line("</CellData>\n<Points>");
  headers.array(grid.points);
  headers.line("</Points>\n<Cells>");
  for (const VtkArray* array : {&grid.connectivity, &offsets, &types}) headers.array(*array);
  headers.line("</Cells>\n</Piece>\n</UnstructuredGrid>\n<AppendedData encoding=\"raw\">");

  OutputFile file(path);
  file.write(headers.text());
  file.write("_");
  for (const VtkArray* array : headers.arrays()) {
    const std::uint64_t size = array->bytes.size();
    file.write(std::as_bytes(std::span(&size, 1)));
    file.write(array->bytes);
  }
  file.write("\n</AppendedData>\n</VTKFile>\n");
  file.close();
}

}  // namespace crownproof
