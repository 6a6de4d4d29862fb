# SPDX-License-Identifier: AGPL-3.0-or-later
# Turns the materials files into a C++ source: cmake -DFILES="a;b" -DOUTPUT=x.cpp -P embed_materials.cmake
set(body "")
foreach(file IN LISTS FILES)
  get_filename_component(name ${file} NAME)
  file(READ ${file} text)
  # Compilers limit the length of one string literal, so every line is a literal of its own.
  string(REPLACE "\\" "\\\\" text "${text}")
  string(REPLACE "\"" "\\\"" text "${text}")
  string(REPLACE "\n" "\\n\"\n     \"" text "${text}")
  string(APPEND body "    {\"cases/materials/${name}\",\n     \"${text}\"},\n")
endforeach()
file(WRITE ${OUTPUT} "// Made by io/embed_materials.cmake from cases/materials; do not edit.
#include \"io/materials/builtin_materials.hpp\"

namespace crownproof {

std::vector<std::pair<std::string, std::string>> builtin_material_files() {
  return {
${body}  };
}

}  // namespace crownproof
")
