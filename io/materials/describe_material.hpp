// SPDX-License-Identifier: AGPL-3.0-or-later
// Materials in words, for the terminal.
#pragma once

#include <string>

#include "io/materials/materials_library.hpp"

namespace crownproof {

/// One line a material, grouped by kind.
std::string list_materials(const MaterialsLibrary& library);

/// All constants of a material with their sources.
std::string show_material(const MaterialData& material);

/// "210 GPa, 0.31" or the constants of a layered material, on one line.
std::string elastic_words(const MaterialData& material);

/// "1169 MPa (modulus 9.1) within layers, 912 MPa (modulus 6.5) across", "1000 MPa (modulus 10)" or "".
std::string strength_words(const MaterialData& material);

}  // namespace crownproof
