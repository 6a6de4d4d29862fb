// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/memory.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>

#include "io/machine/memory_limits.hpp"
#include "io/machine/proc_entry.hpp"

namespace crownproof {

double available_memory_GiB() {
  // MemAvailable counts file caches that the system gives back when asked; MemFree does not.
  const double machine = proc_entry_GiB("/proc/meminfo", "MemAvailable");
  if (machine <= 0) return 0;
  std::ifstream groups("/proc/self/cgroup");
  const std::string membership{std::istreambuf_iterator<char>(groups), {}};
  const double room = std::min(room_of_process_GiB(), room_of_groups_GiB("/sys/fs/cgroup", membership));
  // What is held already is neither free nor left, but it is there for the run.
  return 0.9 * std::min(machine, room) + proc_entry_GiB("/proc/self/status", "VmRSS");
}

double peak_memory_GiB() {
  return proc_entry_GiB("/proc/self/status", "VmHWM");
}

void restart_peak_memory() {
  std::ofstream("/proc/self/clear_refs") << "5";  // proc(5): resets the peak resident set size
}

}  // namespace crownproof
