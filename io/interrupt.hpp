// SPDX-License-Identifier: AGPL-3.0-or-later
// Ctrl-C: the first one stops the run at the next stage, so that nothing is left half-written; a second one
// ends the program at once.
#pragma once

#include <exception>

namespace crownproof {

/// The user asked to stop; exit code 130.
struct Interrupted : std::exception {
  const char* what() const noexcept override { return "interrupted"; }
};

/// From now on SIGINT, SIGTERM and SIGHUP ask to stop.
void listen_for_interrupts();

/// The user asked to stop.
bool interrupt_asked();

/// Throws Interrupted if the user asked to stop.
void throw_if_interrupted();

}  // namespace crownproof
