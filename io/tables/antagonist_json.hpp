// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>

namespace crownproof {

struct Bite;

/// The ball of a bite and where it touched; null for a bite with given contacts.
nlohmann::ordered_json antagonist_json(const Bite& bite);

}  // namespace crownproof
