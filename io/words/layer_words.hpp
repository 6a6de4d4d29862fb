// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/model/model.hpp"
#include "solver/result/report.hpp"

namespace crownproof {

/// A sentence for each bite whose verdict or way of breaking hangs on the rule for layer planes pressed shut;
/// none where the rule does not matter.
std::vector<std::string> layer_rule_sentences(const Model& model, const Report& report);

}  // namespace crownproof
