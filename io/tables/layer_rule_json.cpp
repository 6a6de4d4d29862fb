// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/tables/layer_rule_json.hpp"

#include <cmath>

#include <nlohmann/json.hpp>

#include "io/words/names.hpp"

namespace crownproof {
namespace {

using Json = nlohmann::ordered_json;

Json outcome(const RuleOutcome& o) {
  return {{"safety_factor", std::isfinite(o.safety_factor) ? Json(o.safety_factor) : Json(nullptr)},
          {"mechanism", mechanism_words(o.mechanism)},
          {"fracture_probability", o.probability ? Json(*o.probability) : Json(nullptr)}};
}

}  // namespace

nlohmann::ordered_json layer_rule_json(const std::optional<LayerRule>& rule, const Requirement& requirement) {
  if (!rule) return nullptr;
  return {{"holding", outcome(rule->holding)},
          {"sliding", outcome(rule->sliding)},
          {"changes_verdict", changes_verdict(*rule, requirement)},
          {"changes_mechanism", changes_mechanism(*rule)}};
}

}  // namespace crownproof
