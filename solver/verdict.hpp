// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

namespace crownproof {

/// Of a load against a limit; undecided: what is known of it straddles the limit.
enum class Verdict { below, above, undecided };

/// "below", "above" or "undecided" (the strength).
std::string verdict_name(Verdict verdict);

}  // namespace crownproof
