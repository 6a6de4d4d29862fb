// SPDX-License-Identifier: AGPL-3.0-or-later
// Main memory: what a run may use, and what it has used. Read from /proc (Linux).
#pragma once

namespace crownproof {

/// Memory a run may use, GiB: what the system can give without swapping and what the limits of the process
/// and its control group leave (io/machine/memory_limits.hpp), less a tenth for the rest, and what this
/// program holds already; 0 if the system does not say.
double available_memory_GiB();

/// Most memory this program has held since the last restart_peak_memory(), GiB; 0 if the system does not say.
double peak_memory_GiB();

/// Lets the peak start anew from what is held now. Where the system refuses, the peak stays that of the whole
/// run.
void restart_peak_memory();

}  // namespace crownproof
