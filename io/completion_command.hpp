// SPDX-License-Identifier: AGPL-3.0-or-later
// Completion of the command line in shells, made from the declarations that read it.
#pragma once

#include <string>

namespace CLI {
class App;
}

namespace crownproof {

enum class Shell { bash, zsh };

/// A script for the shell: commands, options, case files and tables, names of materials.
std::string completion_script(const CLI::App& app, Shell shell);

/// Prints it; returns the exit code.
int completion_command(const CLI::App& app, Shell shell);

}  // namespace crownproof
