// SPDX-License-Identifier: AGPL-3.0-or-later
// What goes to the terminal: data to stdout, one status line to stderr if a person is watching.
#pragma once

#include <string>

namespace crownproof {

/// Fills the places of standard streams that the caller closed, so that no file is opened there and then
/// written to by mistake. What is written to such a stream still fails.
void fill_closed_streams();

/// Writes text to stdout. Throws UserError if it cannot be written (full disk, closed pipe).
void print(const std::string& text);

/// Writes a message to stderr. If nobody can read it there - closed, full - the exit code must do.
void tell(const std::string& text);

/// A line on stderr that is rewritten at each stage. Silent unless stderr is a terminal.
class StatusLine {
 public:
  explicit StatusLine(bool quiet);
  ~StatusLine();  ///< wipes the line
  StatusLine(const StatusLine&) = delete;
  StatusLine& operator=(const StatusLine&) = delete;

  void show(const std::string& text) const;

 private:
  bool visible_ = false;
  bool plain_ = false;  ///< NO_COLOR is set: no dimmed letters
};

}  // namespace crownproof
