// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>

namespace crownproof {

struct VariantRecord;

/// `expected` of a variant in summary.json: what the case states, what was found and whether they agree.
nlohmann::ordered_json expected_json(const VariantRecord& variant);

}  // namespace crownproof
