// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "solver/model/requirement.hpp"
#include "solver/strength/layer_rule.hpp"

namespace crownproof {

/// `layer_rule` of a bite in summary.json; null without layers.
nlohmann::ordered_json layer_rule_json(const std::optional<LayerRule>& rule, const Requirement& requirement);

}  // namespace crownproof
