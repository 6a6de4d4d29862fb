// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/verification_table.hpp"

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cctype>
#include <cmath>
#include <filesystem>

namespace crownproof {
namespace {

/// A file name made of the letters and digits of a title.
std::string slug(const std::string& title) {
  std::string name;
  for (const char c : title) name += std::isalnum(static_cast<unsigned char>(c)) ? c : '_';
  return name;
}

}  // namespace

VerificationTable::VerificationTable(const std::string& family, const std::string& title,
                                     const std::string& source) {
  const std::filesystem::path folder = VERIFICATION_ROWS;
  std::filesystem::create_directories(folder);
  file_.open(folder / (family + "-" + slug(title) + ".md"));
  file_ << fmt::format("### {}\n\nSource: {}. Test: `tests/verification/{}.cpp`.\n\n", title, source, family)
        << "| quantity | reference | computed | deviation | tolerance | |\n|---|---|---|---|---|---|\n";
}

void VerificationTable::row(const std::string& quantity, const std::string& reference, double computed,
                            const std::string& deviation, const std::string& tolerance, bool passed) {
  const std::string line = fmt::format("| {} | {} | {:.5g} | {} | {} | {} |\n", quantity, reference, computed,
                                       deviation, tolerance, passed ? "ok" : "**outside**");
  file_ << line << std::flush;
  INFO(line);
  CHECK(passed);
}

void VerificationTable::compare(const std::string& quantity, const std::string& unit, double reference,
                                double computed, double tolerance_percent) {
  compare_to_scale(quantity, unit, reference, computed, std::abs(reference), tolerance_percent);
}

void VerificationTable::compare_to_scale(const std::string& quantity, const std::string& unit,
                                         double reference, double computed, double scale,
                                         double tolerance_percent) {
  const double deviation = 100 * (computed - reference) / scale;
  const std::string of = scale == std::abs(reference) ? "" : fmt::format(" of {:.4g}", scale);
  row(quantity + (unit.empty() ? "" : ", " + unit), fmt::format("{:.7g}", reference), computed,
      fmt::format("{:+.2g} %", deviation), fmt::format("{:g} %{}", tolerance_percent, of),
      std::abs(deviation) <= tolerance_percent);
}

void VerificationTable::within(const std::string& quantity, const std::string& unit, double low, double high,
                               double computed) {
  row(quantity + (unit.empty() ? "" : ", " + unit), fmt::format("{:g} to {:g}", low, high), computed, "", "",
      low <= computed && computed <= high);
}

}  // namespace crownproof
