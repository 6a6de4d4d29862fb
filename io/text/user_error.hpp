// SPDX-License-Identifier: AGPL-3.0-or-later
// What went wrong at the edge, said to a person: the place, what is wrong, what is allowed, what to do.
#pragma once

#include <stdexcept>
#include <string>

namespace crownproof {

/// A place in a text file, counted from 1 as editors do. line 0: the whole file; empty file: no place.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;

  /// "case.yaml:14:5", "case.yaml" or "".
  std::string text() const {
    if (line <= 0) return file;
    return file + ":" + std::to_string(line) + ":" + std::to_string(column);
  }
};

/// A mistake in a case file, a materials file or on the command line; exit code 2. what() is
/// "place: sentence", ready to print.
struct UserError : std::runtime_error {
  UserError(Place where, const std::string& sentence)
      : std::runtime_error(where.file.empty() ? sentence : where.text() + ": " + sentence),
        place(std::move(where)) {}
  explicit UserError(const std::string& sentence) : UserError(Place{}, sentence) {}

  Place place;
};

}  // namespace crownproof
