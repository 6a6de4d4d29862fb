// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "solver/strength/fracture_verdict.hpp"

namespace crownproof {

/// The fracture block of a bite in summary.json; docs/results.md lists the keys.
nlohmann::ordered_json fracture_json(const FractureOutlook& outlook);

/// The allowed probability and what came of it; null if the case allows none.
nlohmann::ordered_json fracture_verdict_json(const std::optional<FractureVerdict>& verdict);

}  // namespace crownproof
