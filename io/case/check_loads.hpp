// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

struct Case;

/// Builds every variant and poses its loads, as a run would before it solves anything; shapes with bites that
/// were posed before are only built. Throws what is wrong: of a study with the variant's name, of loads with
/// the place of the bites.
void check_all_loads(const Case& whole);

}  // namespace crownproof
