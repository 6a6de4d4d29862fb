// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/memory.hpp"

#include <fstream>
#include <limits>
#include <string>

namespace crownproof {
namespace {

/// The entry "name:  12345 kB" of a file of /proc, GiB; 0 if there is none.
double entry_GiB(const char* file, const std::string& name) {
  std::ifstream in(file);
  for (std::string word; in >> word;) {
    double kB = 0;
    if (word == name + ":" && in >> kB) return kB / (1024.0 * 1024);
    in.ignore(std::numeric_limits<std::streamsize>::max(), '\n');
  }
  return 0;
}

}  // namespace

double available_memory_GiB() {
  // MemAvailable counts file caches that the system gives back when asked; MemFree does not.
  return 0.9 * entry_GiB("/proc/meminfo", "MemAvailable");
}

double peak_memory_GiB() {
  return entry_GiB("/proc/self/status", "VmHWM");
}

void restart_peak_memory() {
  std::ofstream("/proc/self/clear_refs") << "5";  // proc(5): resets the peak resident set size
}

}  // namespace crownproof
