// SPDX-License-Identifier: AGPL-3.0-or-later
// The texts of cases/materials/*.yaml, made part of the program by io/embed_materials.cmake.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace crownproof {

/// Path in the source tree and text of each file.
std::vector<std::pair<std::string, std::string>> builtin_material_files();

}  // namespace crownproof
