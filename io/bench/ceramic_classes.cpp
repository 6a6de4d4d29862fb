// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench/ceramic_classes.hpp"

#include <fmt/format.h>

namespace crownproof {

const std::vector<CeramicClass>& ceramic_classes() {
  static const std::vector<CeramicClass> classes{
      {"1", 50, "single front teeth, veneers, inlays and onlays, bonded"},
      {"2", 100, "single front or back teeth, bonded"},
      {"3", 300, "single teeth and three-unit bridges without a molar"},
      {"4", 500, "three-unit bridges with a molar"},
      {"5", 800, "bridges of four or more units"}};
  return classes;
}

std::string class_sentence(double mean_flexural_strength_MPa) {
  const CeramicClass* reached = nullptr;
  for (const CeramicClass& c : ceramic_classes())
    if (mean_flexural_strength_MPa >= c.least_mean_strength_MPa) reached = &c;
  const std::string edition = "(ISO 6872:2015, from memory; to be checked against the current text)";
  if (!reached)
    return fmt::format("A mean flexural strength of {:.0f} MPa is below every class minimum {}.",
                       mean_flexural_strength_MPa, edition);
  return fmt::format(
      "A mean flexural strength of {:.0f} MPa reaches the class {} minimum of {:.0f} MPa: {} {}.",
      mean_flexural_strength_MPa, reached->name, reached->least_mean_strength_MPa, reached->use, edition);
}

}  // namespace crownproof
