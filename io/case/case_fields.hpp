// SPDX-License-Identifier: AGPL-3.0-or-later
// Every key of a case file, declared once. Reading, messages, the JSON Schema and docs/case-reference.md are
// made from these declarations.
#pragma once

#include "io/case/case_file.hpp"

namespace crownproof {

/// The version of the case format that this program reads.
inline constexpr int case_format = 1;

/// The whole file, without `study`, which is taken out before reading (io/case/study.hpp).
const Section<CaseFile>& case_section();

/// Parts of it, one for each source file.
Section<CrownParameters> crown_section();           // case_fields_shape.cpp
Section<FlatStackParameters> flat_stack_section();  // case_fields_shape.cpp
Section<SpecimenCase> specimen_section();           // case_fields_specimen.cpp
Section<BiteCase> bite_section();                   // case_fields_bites.cpp
Section<MaterialsCase> materials_case_section();    // case_fields_materials.cpp
Section<BuildCase> build_section();                 // case_fields_materials.cpp

Section<ExpectedCase> expected_section();  // case_fields_expected.cpp

/// The one figure of it.
ExpectedValue expected_value(const ExpectedCase& expected);

}  // namespace crownproof
