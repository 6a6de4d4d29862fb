// SPDX-License-Identifier: AGPL-3.0-or-later
// `crownproof run`: a case from file to results folder.
#pragma once

#include <filesystem>
#include <string>

namespace crownproof {

struct RunOptions {
  std::filesystem::path case_file;
  std::filesystem::path output;            ///< results folder; empty: results/<name of the case file>
  std::filesystem::path materials_folder;  ///< empty: the built-in materials
  bool force = false;                      ///< former results may be replaced
  bool quiet = false;                      ///< no status line, no summary
  bool json = false;                       ///< print summary.json instead of the summary
  bool require_below = false;              ///< exit code 5 if a bite is above the strength
  int threads = 0;                         ///< 0: all the machine has
  std::string command;                     ///< the command line as typed
};

/// Computes every variant of a case and writes the results. Returns an exit code (io/exit_code.hpp).
int run_command(const RunOptions& options);

}  // namespace crownproof
