// SPDX-License-Identifier: AGPL-3.0-or-later
// Limits that leave a run less memory than the machine has: of the process (ulimit) and of the control group
// it was started in (batch queues, containers, services).
#pragma once

#include <filesystem>
#include <string>

namespace crownproof {

/// What is left of the address space (ulimit -v) and of the data (ulimit -d) this process may use, GiB;
/// infinite if it is not limited.
double room_of_process_GiB();

/// What is left to a process in its control groups and all groups above, GiB; file caches count as free.
/// Infinite if nothing is limited or known. `mounts`: where the systems of groups are mounted
/// (/sys/fs/cgroup); `membership`: the text of /proc/self/cgroup. Both versions of the files are known (Linux
/// kernel documentation, cgroup-v1/memory and cgroup-v2).
double room_of_groups_GiB(const std::filesystem::path& mounts, const std::string& membership);

}  // namespace crownproof
