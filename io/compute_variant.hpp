// SPDX-License-Identifier: AGPL-3.0-or-later
// One variant of a case, from its keys to a record and fields.
#pragma once

#include <string>

#include "io/case/case.hpp"
#include "io/record/run_record.hpp"
#include "solver/result/fields.hpp"

namespace crownproof {

class StatusLine;

/// A computed variant and its fields.
struct Computed {
  VariantRecord record;
  Fields fields;
};

/// Builds, meshes, solves and judges. `counter` stands before the stages on the status line. Throws what the
/// solver throws, and Interrupted.
Computed compute_variant(const CaseVariant& variant, const MaterialsLibrary& library,
                         const StatusLine& status, const std::string& counter);

/// Label, varied values and wishes of a variant, in place of those in a record.
VariantRecord with_words_of(VariantRecord record, const CaseVariant& variant);

}  // namespace crownproof
