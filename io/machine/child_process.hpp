// SPDX-License-Identifier: AGPL-3.0-or-later
// Work that may crash or never end, done by another process.
#pragma once

#include <chrono>
#include <functional>
#include <string>
#include <vector>

namespace crownproof {

/// How a child process ended.
struct ChildResult {
  std::string said;      ///< on stdout and stderr
  int exit_code = 0;     ///< if it ended by itself
  std::string ended_by;  ///< empty if it ended by itself; otherwise why not, e.g. "it crashed (Aborted)"
};

/// Runs a program (path and arguments) and waits. A child that says nothing for longer than
/// `longest_silence`, or once `stop` is true, is killed. Throws std::system_error if it cannot be started.
ChildResult run_child(const std::vector<std::string>& command, std::chrono::milliseconds longest_silence,
                      const std::function<bool()>& stop = {});

/// This process is not to outlive the one that started it.
void end_with_parent();

}  // namespace crownproof
