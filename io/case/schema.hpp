// SPDX-License-Identifier: AGPL-3.0-or-later
// JSON Schema (draft 7, the one YAML editors understand) of case and materials files, made from the same
// declarations that the reader uses.
#pragma once

#include <string>

#include "io/fields/field_info.hpp"

namespace crownproof {

/// Every key of a case file, `study` included.
FieldInfo whole_case_info();

/// The schema of a case file as indented JSON.
std::string case_schema();

/// The schema of a materials file as indented JSON.
std::string materials_schema();

}  // namespace crownproof
