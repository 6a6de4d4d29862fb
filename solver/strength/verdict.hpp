// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

namespace crownproof {

/// Of a load against a limit; undecided: what is known of it straddles the limit.
enum class Verdict { below, above, undecided };

/// "below", "above" or "undecided", as the tables have it.
std::string verdict_name(Verdict verdict);

/// 2 for above, 1 for undecided, 0 for below: of several verdicts the most severe one holds.
int severity(Verdict verdict);

}  // namespace crownproof
