// SPDX-License-Identifier: AGPL-3.0-or-later
// Clock, peak memory and the row every program prints.
#pragma once

#include <algorithm>
#include <chrono>
#include <fstream>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <malloc.h>
#include <time.h>

namespace crownproof {

inline double seconds() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

/// Processor time of all threads of this process.
inline double cpu_seconds() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

/// Gives free memory back and lets the peak count from now on (Linux).
inline void reset_peak_memory() {
  malloc_trim(0);
  std::ofstream("/proc/self/clear_refs") << 5;
}

/// Largest resident memory since the reset, GiB.
inline double peak_memory_GiB() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);) {
    if (line.rfind("VmHWM:", 0) == 0) return std::stod(line.substr(6)) / (1024.0 * 1024.0);
  }
  return 0;
}

inline double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

/// One row: who, unknowns, set-up s, solve s, processor s of both, iterations (0: direct), true relative
/// residual, peak GiB, runs.
inline void print_row(const std::string& name, long unknowns, double setup, double solve, double cpu,
                      int iterations, double residual, double memory, int runs) {
  fmt::print("row|{}|{}|{:.2f}|{:.2f}|{:.2f}|{}|{:.1e}|{:.2f}|{}\n", name, unknowns, setup, solve, cpu,
             iterations, residual, memory, runs);
}

}  // namespace crownproof
