// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/limit_words.hpp"

#include <fmt/format.h>

namespace crownproof {
namespace {

std::string sentence(const MethodLimit& limit) {
  switch (limit.kind) {
    case LimitKind::nearly_incompressible:
      return fmt::format(
          "The {} is nearly incompressible (Poisson's ratio {:g} or more): its displacements hold, but its "
          "stress at a point swings from cell to cell and is withheld. How far such a layer yields depends "
          "strongly on that ratio.",
          limit.region, withhold_from_poisson);
    case LimitKind::extreme_contrast:
      return fmt::format(
          "The {} is {:.0e} times as stiff as the {}: the {} hardly carries load, and stress at the edge of "
          "their bond is decided by the mesh. Check the units of Young's modulus.",
          limit.stiff_region, limit.figure, limit.region, limit.region);
    case LimitKind::slivers:
      break;
  }
  return fmt::format(
      "Some cells of the {} are slivers (smallest angle {:.1f} degrees): stress beside them is rough. A "
      "slightly different cell count usually removes them.",
      limit.region, limit.figure);
}

}  // namespace

std::vector<std::string> limit_sentences(const std::vector<MethodLimit>& limits) {
  std::vector<std::string> sentences;
  for (const MethodLimit& limit : limits) sentences.push_back(sentence(limit));
  return sentences;
}

std::string angle_caveat() {
  return "Strength between in-layer and across-layer tension is assumed.";
}

}  // namespace crownproof
