// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/record/run_record.hpp"
#include "solver/model/model.hpp"

namespace crownproof {

std::string label_of(const VariantRecord& variant) {
  return variant.label.empty() ? variant.model->title : variant.label;
}

}  // namespace crownproof
