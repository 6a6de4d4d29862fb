// SPDX-License-Identifier: AGPL-3.0-or-later
// Exit codes of the program, as listed by --help, and how errors become them.
#pragma once

#include <functional>

namespace crownproof {

namespace exit_code {
inline constexpr int done = 0;
inline constexpr int internal = 1;  ///< a fault of the program, or too little memory
inline constexpr int usage = 2;     ///< command line, case file, results folder
inline constexpr int geometry = 3;  ///< a shape that cannot be built or meshed
inline constexpr int no_convergence = 4;
inline constexpr int not_below = 5;  ///< only with --require-below
inline constexpr int interrupted = 130;
}  // namespace exit_code

/// Runs a command; an error is printed on stderr as one message and becomes an exit code.
int guarded(const std::function<int()>& command);

}  // namespace crownproof
