// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/study_answer.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>

namespace crownproof {
namespace {

constexpr std::size_t most_ranked = 6;

bool is_thickness(const VariedValue& varied) {
  return varied.key == "crown.occlusal_thickness_mm" || varied.key == "flat_stack.ceramic_thickness_mm";
}

/// A variant by its worst bite.
struct Design {
  double thickness_mm = 0;
  std::string label;
  Verdict verdict = Verdict::below;
  double safety_factor = 0;
  std::string bite;
};

Design design_of(const VariantRecord& variant) {
  Design d;
  d.thickness_mm = variant.asked_thickness_mm.value_or(0);
  d.label = label_of(variant);
  bool first = true;
  for (const BiteResult& bite : variant.result.bites) {
    const double factor = bite.governing.safety_factor;
    if (first || severity(bite.verdict) > severity(d.verdict)) d.verdict = bite.verdict;
    if (first || factor < d.safety_factor) {
      d.safety_factor = factor;
      d.bite = bite.name;
    }
    first = false;
  }
  return d;
}

std::string words(const Design& d) {
  return fmt::format("{} (safety factor {:.2f}, bite '{}')", verdict_name(d.verdict), d.safety_factor,
                     d.bite);
}

std::string thinnest_of(const std::vector<Design>& by_thickness, double required) {
  const auto passes = [](const Design& d) { return d.verdict == Verdict::below; };
  const auto thinnest = std::find_if(by_thickness.begin(), by_thickness.end(), passes);
  if (thinnest == by_thickness.end()) {
    const Design& best =
        *std::max_element(by_thickness.begin(), by_thickness.end(),
                          [](const Design& a, const Design& b) { return a.safety_factor < b.safety_factor; });
    return fmt::format(
        "no thickness from {:g} to {:g} mm keeps every bite below; the largest safety factor is "
        "{:.2f}, at {:g} mm, and {:g} is asked.",
        by_thickness.front().thickness_mm, by_thickness.back().thickness_mm, best.safety_factor,
        best.thickness_mm, required);
  }
  std::string text = fmt::format(
      "the thinnest that keeps every bite below is {:g} mm (safety factor {:.2f}, "
      "bite '{}')",
      thinnest->thickness_mm, thinnest->safety_factor, thinnest->bite);
  if (thinnest != by_thickness.begin()) {
    const Design& thinner = *std::prev(thinnest);
    text += fmt::format("; {:g} mm is {}", thinner.thickness_mm, words(thinner));
  } else {
    text += ", the thinnest tried";
  }
  const auto thicker_fails = std::find_if_not(thinnest, by_thickness.end(), passes);
  if (thicker_fails != by_thickness.end())
    text += fmt::format("; but {:g} mm, though thicker, is {}: look why before you trust either",
                        thicker_fails->thickness_mm, words(*thicker_fails));
  return text + ".";
}

std::string ranking(std::vector<Design> designs) {
  std::stable_sort(designs.begin(), designs.end(),
                   [](const Design& a, const Design& b) { return a.safety_factor > b.safety_factor; });
  std::string text = "from the largest safety factor down: ";
  for (std::size_t i = 0; i < std::min(designs.size(), most_ranked); ++i)
    text += fmt::format("{}{} {:.2f}, {}", i > 0 ? "; " : "", designs[i].label, designs[i].safety_factor,
                        verdict_name(designs[i].verdict));
  return text + (designs.size() > most_ranked ? "; the rest is in the tables." : ".");
}

}  // namespace

std::vector<std::string> study_answers(std::span<const VariantRecord> variants) {
  if (variants.size() < 2) return {};
  std::vector<std::string> order;                     // groups as they come
  std::map<std::string, std::vector<Design>> groups;  // by what else varies
  bool thickness_varies = false;
  for (const VariantRecord& v : variants) {
    std::string others;
    for (const VariedValue& varied : v.varied) {
      if (is_thickness(varied))
        thickness_varies = true;
      else
        others += (others.empty() ? "" : ", ") + varied.value;
    }
    if (!groups.contains(others)) order.push_back(others);
    groups[others].push_back(design_of(v));
  }
  std::vector<std::string> answers;
  if (!thickness_varies) {
    std::vector<Design> all;
    for (const VariantRecord& v : variants) all.push_back(design_of(v));
    return {ranking(std::move(all))};
  }
  for (const std::string& others : order) {
    std::vector<Design>& designs = groups[others];
    std::stable_sort(designs.begin(), designs.end(),
                     [](const Design& a, const Design& b) { return a.thickness_mm < b.thickness_mm; });
    answers.push_back((others.empty() ? "" : others + ": ") +
                      thinnest_of(designs, variants.front().model.requirement.safety_factor));
  }
  return answers;
}

}  // namespace crownproof
