// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/terminal.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "io/text/user_error.hpp"

namespace crownproof {
namespace {

constexpr const char* wipe_line = "\r\x1b[K";

/// True if the variable is set to something (no-color.org).
bool is_set(const char* variable) {
  const char* value = std::getenv(variable);
  return value && *value;
}

bool terminal_can_rewrite() {
  const char* kind = std::getenv("TERM");
  return isatty(STDERR_FILENO) && kind && std::string_view(kind) != "dumb";
}

}  // namespace

void fill_closed_streams() {
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    if (::fcntl(stream, F_GETFD) < 0 && ::open("/dev/null", O_RDONLY) < 0) return;  // takes the lowest place
}

void print(const std::string& text) {
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if (!written || std::fflush(stdout) != 0)
    throw UserError("the output cannot be written (disk full, or the reader has gone).");
}

void tell(const std::string& text) {
  std::fputs(text.c_str(), stderr);
  std::fflush(stderr);
}

StatusLine::StatusLine(bool quiet) : visible_(!quiet && terminal_can_rewrite()), plain_(is_set("NO_COLOR")) {}

StatusLine::~StatusLine() {
  if (visible_) std::fputs(wipe_line, stderr);
}

void StatusLine::show(const std::string& text) const {
  if (!visible_) return;
  tell(plain_ ? wipe_line + text : fmt::format("{}\x1b[2m{}\x1b[0m", wipe_line, text));
}

}  // namespace crownproof
