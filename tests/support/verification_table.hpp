// SPDX-License-Identifier: AGPL-3.0-or-later
// Compares computed figures with published references, fails the test outside the tolerance, and keeps a row
// of each comparison from which docs/verification.md is generated.
#pragma once

#include <fstream>
#include <string>

namespace crownproof {

/// One table of the generated page. `family` is the file name of the test; `source` the published reference.
class VerificationTable {
 public:
  VerificationTable(const std::string& family, const std::string& title, const std::string& source);

  /// |computed - reference| <= tolerance_percent of |reference|.
  void compare(const std::string& quantity, const std::string& unit, double reference, double computed,
               double tolerance_percent);
  /// The same with the deviation taken relative to `scale`: for references that are small beside the field.
  void compare_to_scale(const std::string& quantity, const std::string& unit, double reference,
                        double computed, double scale, double tolerance_percent);
  /// A figure that must lie in a range.
  void within(const std::string& quantity, const std::string& unit, double low, double high, double computed);

 private:
  void row(const std::string& quantity, const std::string& reference, double computed,
           const std::string& deviation, const std::string& tolerance, bool passed);

  std::ofstream file_;
};

}  // namespace crownproof
