// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/expected_words.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "io/record/run_record.hpp"
#include "io/text/text_layout.hpp"
#include "io/words/summary_layout.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {
namespace {

const BiteReport* bite_named(const VariantRecord& variant, const std::string& name) {
  for (const BiteReport& bite : variant.report.bites)
    if (bite.name == name) return &bite;
  return nullptr;
}

const ZonePeak* peak_of(const BiteReport& bite, const std::optional<Zone>& zone) {
  if (!zone) return &bite.tension.governing;
  for (const ZonePeak& peak : bite.peaks)
    if (peak.zone == *zone) return &peak;
  return nullptr;
}

/// After the years, if the case asks for years.
std::optional<double> probability_percent(const BiteReport& bite) {
  if (bite.fracture.withheld) return std::nullopt;
  return 100 * (bite.fracture.later ? bite.fracture.later->probability : bite.fracture.now.probability);
}

std::string unit_words(ExpectedQuantity quantity) {
  switch (quantity) {
    case ExpectedQuantity::safety_factor:
      return "safety factor";
    case ExpectedQuantity::fracture_probability_percent:
      return "fracture %";
    case ExpectedQuantity::tension_MPa:
      break;
  }
  return "MPa";
}

constexpr std::size_t name_width = 46;

std::string row(const VariantRecord& variant, const ExpectedValue& expected) {
  const std::string name =
      fmt::format("{}{}, {}, {}", variant.label.empty() ? "" : variant.label + ", ", expected.bite,
                  expected.zone ? zone_name(*expected.zone) : "deciding", unit_words(expected.quantity));
  const auto found = found_value(variant, expected);
  const std::string figures = found ? fmt::format("{:>9.4g}{:>9.4g}{:>+8.1f} %", expected.value, *found,
                                                  100 * (*found / expected.value - 1))
                                    : fmt::format("{:>9.4g}{:>9}", expected.value, "-");
  const bool fits = display_width(name) <= name_width;
  return (fits ? "" : wrapped(name, summary_width, "  ", "  ")) + "  " +
         padded(fits ? name : "", name_width) + figures +
         (as_expected(variant, expected) ? "\n" : "  differs\n");
}

}  // namespace

std::optional<double> found_value(const VariantRecord& variant, const ExpectedValue& expected) {
  const BiteReport* const bite = bite_named(variant, expected.bite);
  if (bite == nullptr) return std::nullopt;
  if (expected.quantity == ExpectedQuantity::fracture_probability_percent) return probability_percent(*bite);
  const ZonePeak* const peak = peak_of(*bite, expected.zone);
  if (peak == nullptr) return std::nullopt;
  return expected.quantity == ExpectedQuantity::safety_factor ? peak->safety_factor : peak->tension_MPa;
}

bool as_expected(const VariantRecord& variant, const ExpectedValue& expected) {
  const auto found = found_value(variant, expected);
  return found && std::abs(*found / expected.value - 1) <= expected.within_percent / 100;
}

std::string quantity_name(ExpectedQuantity quantity) {
  switch (quantity) {
    case ExpectedQuantity::safety_factor:
      return "safety_factor";
    case ExpectedQuantity::fracture_probability_percent:
      return "fracture_probability_percent";
    case ExpectedQuantity::tension_MPa:
      break;
  }
  return "tension_MPa";
}

std::string expected_table(std::span<const VariantRecord> variants) {
  std::string rows;
  std::vector<std::string> sources;
  for (const VariantRecord& variant : variants)
    for (const ExpectedValue& expected : variant.expected) {
      rows += row(variant, expected);
      const bool is_new = std::find(sources.begin(), sources.end(), expected.source) == sources.end();
      if (is_new && !expected.source.empty()) sources.push_back(expected.source);
    }
  if (rows.empty()) return "";
  std::string text = fmt::format("\n  {}{:>9}{:>9}{:>10}\n", padded("stated in the case", name_width),
                                 "stated", "found", "apart");
  text += rows;
  for (const std::string& source : sources) text += entry("Stated", source);
  return text;
}

}  // namespace crownproof
