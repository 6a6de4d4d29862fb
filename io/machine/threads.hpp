// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

/// How many threads, this one included and `wanted` at most, can run at once within the limits of memory and
/// processes here. OpenMP ends the program if it cannot start one, so this is to be asked before.
int startable_threads(int wanted);

}  // namespace crownproof
