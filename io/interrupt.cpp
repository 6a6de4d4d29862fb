// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/interrupt.hpp"

#include <unistd.h>

#include <csignal>

#include "io/exit_code.hpp"

namespace crownproof {
namespace {

// A signal handler can reach nothing but a global of this type.
volatile std::sig_atomic_t stop_asked = 0;

extern "C" void on_signal(int) {
  if (stop_asked) _exit(exit_code::interrupted);
  stop_asked = 1;
}

}  // namespace

void listen_for_interrupts() {
  std::signal(SIGINT, on_signal);
  std::signal(SIGTERM, on_signal);
  std::signal(SIGHUP, on_signal);  // the terminal was closed
  std::signal(SIGPIPE, SIG_IGN);   // the reader has gone: an error of the stream, told as such
}

bool interrupt_asked() {
  return stop_asked != 0;
}

void throw_if_interrupted() {
  if (stop_asked) throw Interrupted{};
}

}  // namespace crownproof
