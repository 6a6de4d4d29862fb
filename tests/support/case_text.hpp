// SPDX-License-Identifier: AGPL-3.0-or-later
// Small cases as text, and the message a faulty one gets.
#pragma once

#include <string>

#include "io/case/case.hpp"

namespace crownproof {

/// The materials that come with the program, read once.
inline const MaterialsLibrary& test_library() {
  static const MaterialsLibrary library = builtin_materials();
  return library;
}

/// A complete case; line numbers matter to the tests.
inline std::string small_case() {
  return "crownproof: 1\n"                                               // 1
         "title: Flat stack\n"                                           // 2
         "flat_stack:\n"                                                 // 3
         "  radius_mm: 6\n"                                              // 4
         "  ceramic_thickness_mm: 1.0\n"                                 // 5
         "  cement_thickness_um: 80\n"                                   // 6
         "materials:\n"                                                  // 7
         "  crown: zirconia_3y_printed\n"                                // 8
         "  cement: resin_cement\n"                                      // 9
         "  die: dentin\n"                                               // 10
         "build: {tilt_deg: 30, toward: mesial}\n"                       // 11
         "bites:\n"                                                      // 12
         "  - name: clench\n"                                            // 13
         "    contacts:\n"                                               // 14
         "      - {at: centre, force_N: 300, radius_mm: 0.5}\n"          // 15
         "      - {at_mm: [2, -1], force_N: 100, pressure: uniform}\n";  // 16
}

/// The text with its first `from` replaced by `to`.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::logic_error("the test's text does not hold '" + from + "'");
  return text.replace(at, from.size(), to);
}

/// Reads a case and builds all its models.
Case read_and_build(const std::string& text);

/// The message of the UserError that a case gets, or "" if it is accepted.
std::string message_of(const std::string& text);

}  // namespace crownproof
