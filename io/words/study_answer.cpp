// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/study_answer.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include <fmt/format.h>

#include "io/record/run_record.hpp"
#include "io/words/study_design.hpp"
#include "io/words/study_ranking.hpp"

namespace crownproof {
namespace {

std::string no_thickness(const std::vector<Design>& by_thickness) {
  const Design& nearest =
      *std::min_element(by_thickness.begin(), by_thickness.end(),
                        [](const Design& a, const Design& b) { return is_worse(*b.worst, *a.worst); });
  return fmt::format(
      "in this model no thickness from {:g} to {:g} mm keeps every bite below; the nearest to it, {:g} mm, "
      "is {} {}.",
      by_thickness.front().thickness_mm, by_thickness.back().thickness_mm, nearest.thickness_mm,
      verdict_name(nearest.worst->verdict), design_figures(nearest));
}

/// A statement about the model, and what it does not say.
std::string thinnest_of(const std::vector<Design>& by_thickness) {
  const auto passes = [](const Design& d) { return d.passes(); };
  const auto thinnest = std::find_if(by_thickness.begin(), by_thickness.end(), passes);
  if (thinnest == by_thickness.end()) return no_thickness(by_thickness);
  std::string text = fmt::format("in this model the thinnest tried that keeps every bite below is {:g} mm {}",
                                 thinnest->thickness_mm, design_figures(*thinnest));
  if (thinnest == by_thickness.begin())
    text += "; none thinner was tried";
  else
    text +=
        fmt::format("; {:g} mm is {} {}", std::prev(thinnest)->thickness_mm,
                    verdict_name(std::prev(thinnest)->worst->verdict), design_figures(*std::prev(thinnest)));
  const auto thicker_fails = std::find_if_not(thinnest, by_thickness.end(), passes);
  if (thicker_fails != by_thickness.end())
    text += fmt::format("; but {:g} mm, though thicker, is {} {}: look why before you trust either",
                        thicker_fails->thickness_mm, verdict_name(thicker_fails->worst->verdict),
                        design_figures(*thicker_fails));
  return text + ". The minimum in the material's instructions for use holds all the same.";
}

/// The weakest bulk and contact among the bites of a design, if it has such places.
double smallest_factor(const Design& d, std::optional<PlaceAnswer> BiteReport::*place) {
  double factor = std::numeric_limits<double>::infinity();
  for (const BiteReport& bite : d.bites())
    if (bite.*place) factor = std::min(factor, (bite.*place)->tension.governing.safety_factor);
  return factor;
}

bool bulk_passes(const Design& d) {
  return std::all_of(d.bites().begin(), d.bites().end(), [](const BiteReport& bite) {
    return !bite.bulk || bite.bulk->verdict == Verdict::below;
  });
}

/// What thickness decides, apart from the contacts: said where there are both.
std::string bulk_of(const std::vector<Design>& by_thickness) {
  const Design &thin = by_thickness.front(), &thick = by_thickness.back();
  if (!std::isfinite(smallest_factor(thin, &BiteReport::contact))) return "";
  const auto thinnest = std::find_if(by_thickness.begin(), by_thickness.end(), bulk_passes);
  const std::string bulk =
      thinnest == by_thickness.end()
          ? "no thickness tried is below"
          : fmt::format("{:g} mm is the thinnest tried that is below (safety factor {:.2f})",
                        thinnest->thickness_mm, smallest_factor(*thinnest, &BiteReport::bulk));
  return fmt::format(
      " In the bulk, which is what thickness decides, {}. At the contacts the safety factor goes from {:.2f} "
      "at {:g} mm to {:.2f} at {:g} mm: their size and pressure decide there.",
      bulk, smallest_factor(thin, &BiteReport::contact), thin.thickness_mm,
      smallest_factor(thick, &BiteReport::contact), thick.thickness_mm);
}

/// The designs in groups of the same `key`, as they come.
template <class Key>
std::vector<std::vector<Design>> grouped_by(const std::vector<Design>& designs, const Key& key) {
  std::vector<std::vector<Design>> groups;
  for (const Design& d : designs) {
    const auto group =
        std::find_if(groups.begin(), groups.end(), [&](const auto& g) { return key(g.front()) == key(d); });
    if (group == groups.end())
      groups.push_back({d});
    else
      group->push_back(d);
  }
  return groups;
}

std::string both(const Design& d) {
  return d.given + (d.given.empty() || d.choice.empty() ? "" : ", ") + d.choice;
}

std::vector<std::string> thickness_answers(std::vector<Design> designs) {
  std::vector<std::string> answers;
  for (std::vector<Design>& group : grouped_by(designs, both)) {
    std::stable_sort(group.begin(), group.end(),
                     [](const Design& a, const Design& b) { return a.thickness_mm < b.thickness_mm; });
    const std::string what = both(group.front());
    answers.push_back((what.empty() ? "" : what + ": ") + thinnest_of(group) + bulk_of(group));
  }
  return answers;
}

/// Designs are ranked among those that share what is given.
std::vector<std::string> ranked_answers(const std::vector<Design>& designs, bool choices) {
  if (!choices) return {told_apart(designs)};
  std::vector<std::string> answers;
  for (const std::vector<Design>& group : grouped_by(designs, [](const Design& d) { return d.given; }))
    answers.push_back((group.front().given.empty() ? "" : group.front().given + ": ") + ranking(group));
  return answers;
}

}  // namespace

std::vector<std::string> study_answers(std::span<const VariantRecord> variants) {
  if (variants.size() < 2) return {};
  const auto& varied = variants.front().varied;
  const auto any = [&](KeyRole role) {
    return std::any_of(varied.begin(), varied.end(),
                       [&](const VariedValue& v) { return role_of(v.key) == role; });
  };
  const std::vector<Design> designs = designs_of(variants);
  std::vector<std::string> answers =
      any(KeyRole::thickness) ? thickness_answers(designs) : ranked_answers(designs, any(KeyRole::choice));
  if (any(KeyRole::cement)) answers.push_back(cement_reason());
  return answers;
}

}  // namespace crownproof
