// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/fracture_words.hpp"

#include <fmt/format.h>

namespace crownproof {
namespace {

/// How far the cells let the probability be known.
std::string mesh_words(const FractureOutlook& outlook) {
  const double percent = shown_percent(outlook.mesh_uncertainty);
  if (!(outlook.now.probability > 0)) return "";
  if (outlook.mesh_settling == Settling::does_not_settle)
    return fmt::format(" It still changes by {:.0f} % from mesh to mesh.", percent);
  const bool alone = outlook.mesh_settling == Settling::one_pass;
  return fmt::format(" The mesh adds {}+-{:.0f} % to it{}.", alone ? "about " : "", percent,
                     alone ? " (rule of thumb for one mesh)" : "");
}

}  // namespace

std::string fracture_words(const FractureOutlook& outlook) {
  if (!outlook.withheld.empty()) return "No probability of fracture: " + outlook.withheld;
  std::string text = outlook.now.sentence;
  text += mesh_words(outlook);
  if (outlook.later) text += " " + outlook.later->sentence;
  if (!outlook.later_withheld.empty()) text += " " + outlook.later_withheld;
  if (outlook.loads.at_5_percent_N)
    text += fmt::format(" 5 % break at {:.0f} N, 50 % at {:.0f} N, 63.2 % at {:.0f} N.",
                        *outlook.loads.at_5_percent_N, *outlook.loads.at_50_percent_N,
                        *outlook.loads.at_63_percent_N);
  return text;
}

}  // namespace crownproof
