// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <span>
#include <string>
#include <vector>

namespace crownproof {

struct Model;
struct Report;
struct VariantRecord;

/// A sentence for each bite whose verdict or way of breaking hangs on the rule for layer planes pressed shut;
/// none where the rule does not matter.
std::vector<std::string> layer_rule_sentences(const Model& model, const Report& report);

/// The same for a study, short: the variant and bite where the verdict hangs on the rule, and how often only
/// the way of breaking does.
std::vector<std::string> layer_rule_of_study(std::span<const VariantRecord> variants);

}  // namespace crownproof
