// SPDX-License-Identifier: AGPL-3.0-or-later
// What a case would compute, in words: for `crownproof check`.
#pragma once

#include <string>

#include "io/case/case.hpp"

namespace crownproof {

struct Model;

/// Parts with their materials and how sure these are, landmarks, loads with resultants and places, cell sizes
/// of one variant.
std::string describe_model(const Model& model, const CaseFile& case_file, const MaterialsLibrary& library);

/// The variants of a study, one a line.
std::string describe_variants(const Case& whole);

}  // namespace crownproof
