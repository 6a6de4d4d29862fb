// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/study_design.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "io/record/run_record.hpp"
#include "io/words/percent_words.hpp"

namespace crownproof {
namespace {

bool begins_with_one_of(const std::string& key, std::span<const char* const> beginnings) {
  return std::any_of(beginnings.begin(), beginnings.end(), [&](const char* b) { return key.starts_with(b); });
}

void add(std::string& list, const std::string& value) {
  list += (list.empty() ? "" : ", ") + value;
}

Design design_of(const VariantRecord& variant) {
  Design d{.thickness_mm = variant.asked_thickness_mm.value_or(0), .label = label_of(variant)};
  d.variant = &variant;
  for (const VariedValue& varied : variant.varied) switch (role_of(varied.key)) {
      case KeyRole::thickness:
        break;
      case KeyRole::choice:
        add(d.choice, varied.value);
        break;
      case KeyRole::given:
      case KeyRole::cement:
        add(d.given, varied.value);
        break;
    }
  for (const BiteReport& bite : variant.report.bites)
    if (d.worst == nullptr || is_worse(bite, *d.worst)) d.worst = &bite;
  return d;
}

}  // namespace

KeyRole role_of(const std::string& key) {
  static constexpr std::array thickness{"crown.occlusal_thickness_mm", "flat_stack.ceramic_thickness_mm"};
  static constexpr std::array cement{"materials.cement", "crown.cement", "flat_stack.cement"};
  static constexpr std::array given{"materials.die", "bites",       "support",        "strength",
                                    "accuracy",      "crown.tooth", "flat_stack.die", "flat_stack.radius",
                                    "specimen.load", "crown.die",   "title"};
  if (std::find(thickness.begin(), thickness.end(), key) != thickness.end()) return KeyRole::thickness;
  if (begins_with_one_of(key, cement)) return KeyRole::cement;
  return begins_with_one_of(key, given) ? KeyRole::given : KeyRole::choice;
}

const std::vector<BiteReport>& Design::bites() const {
  return variant->report.bites;
}

bool is_worse(const BiteReport& a, const BiteReport& b) {
  if (a.verdict != b.verdict) return severity(a.verdict) > severity(b.verdict);
  return a.tension.governing.safety_factor < b.tension.governing.safety_factor;
}

std::vector<Design> designs_of(std::span<const VariantRecord> variants) {
  std::vector<Design> designs;
  for (const VariantRecord& v : variants) designs.push_back(design_of(v));
  return designs;
}

std::string design_figures(const Design& d) {
  const auto& limit = d.worst->fracture_verdict;
  const std::string probability = limit && limit->decides
                                      ? fmt::format(", probability of fracture {}, {:g} % allowed",
                                                    percent_words(limit->probability), 100 * limit->allowed)
                                      : "";
  return fmt::format("(safety factor {:.2f}{}, bite '{}')", d.safety_factor(), probability, d.worst->name);
}

}  // namespace crownproof
