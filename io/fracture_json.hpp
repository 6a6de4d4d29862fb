// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "solver/fracture_outlook.hpp"

namespace crownproof {

/// The fracture block of a bite in summary.json; docs/results.md lists the keys.
nlohmann::ordered_json fracture_json(const FractureOutlook& outlook);

}  // namespace crownproof
