// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/vtk/study_pvd.hpp"

#include <fmt/format.h>

#include "io/text/xml_text.hpp"
#include "io/vtk/vtk_xml.hpp"

namespace crownproof {

std::string study_pvd(const std::vector<std::string>& vtu_files) {
  std::string text =
      "<?xml version=\"1.0\"?>\n<VTKFile type=\"Collection\" version=\"0.1\" "
      "byte_order=\"LittleEndian\">\n<Collection>\n";
  for (std::size_t i = 0; i < vtu_files.size(); ++i)
    text += fmt::format("<DataSet timestep=\"{}\" file=\"{}\"/>\n", i, xml_escaped(vtu_files[i]));
  return text + "</Collection>\n</VTKFile>\n";
}

}  // namespace crownproof
