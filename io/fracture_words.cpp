// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/fracture_words.hpp"

#include <fmt/format.h>

namespace crownproof {

std::string fracture_words(const FractureOutlook& outlook) {
  if (!outlook.withheld.empty()) return "No probability of fracture: " + outlook.withheld;
  std::string text = outlook.now.sentence;
  if (outlook.later) text += " " + outlook.later->sentence;
  if (!outlook.later_withheld.empty()) text += " " + outlook.later_withheld;
  if (outlook.loads.at_5_percent_N)
    text += fmt::format(" 5 % break at {:.0f} N, 50 % at {:.0f} N, 63.2 % at {:.0f} N.",
                        *outlook.loads.at_5_percent_N, *outlook.loads.at_50_percent_N,
                        *outlook.loads.at_63_percent_N);
  return text;
}

}  // namespace crownproof
