// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/thickness_words.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "mesh/volume/thickness_report.hpp"

namespace crownproof {
namespace {

bool thinner(const ThicknessAt& a, const ThicknessAt& b) {
  return a.thickness_mm < b.thickness_mm;
}

/// "0.62", or "0.62 to 0.70" where they differ in print.
std::string range_words(double least, double most) {
  const std::string low = fmt::format("{:.2f}", least), high = fmt::format("{:.2f}", most);
  return low == high ? low : fmt::format("{} to {}", low, high);
}

void add(std::vector<std::string>& parts, const std::string& where, const std::vector<ThicknessAt>& places) {
  if (places.empty()) return;
  const auto [least, most] = std::minmax_element(places.begin(), places.end(), thinner);
  parts.push_back(fmt::format("{} {}", where, range_words(least->thickness_mm, most->thickness_mm)));
}

/// " on the occlusal surface, 0.7 mm from central_fossa"; empty if the place has no name.
std::string thinnest_place(const ThicknessReport& t) {
  if (t.smallest.name.empty()) return "";
  const auto distance = [&](const ThicknessAt& mark) { return (mark.point - t.smallest.point).norm(); };
  const auto nearest =
      std::min_element(t.landmarks.begin(), t.landmarks.end(),
                       [&](const ThicknessAt& a, const ThicknessAt& b) { return distance(a) < distance(b); });
  const std::string face = fmt::format(" on the {} surface", t.smallest.name);
  if (nearest == t.landmarks.end()) return face;
  return fmt::format("{}, {:.1f} mm from {}", face, distance(*nearest), nearest->name);
}

}  // namespace

std::string thickness_words(const ThicknessReport& t, std::optional<double> asked_mm) {
  std::vector<std::string> parts;
  if (asked_mm) parts.push_back(fmt::format("thickness {:.2f} mm asked", *asked_mm));
  if (!t.table_thinnest.name.empty())
    parts.push_back(fmt::format("measured on the occlusal table {} mm",
                                range_words(t.table_thinnest.thickness_mm, t.table_thickest.thickness_mm)));
  if (t.fossa.thickness_mm > 0) {
    const bool crown = !t.table_thinnest.name.empty();
    parts.push_back(
        fmt::format("{}{:.2f}{}", crown ? "fossa " : "", t.fossa.thickness_mm, crown ? "" : " mm measured"));
  }
  add(parts, "functional cusps", t.functional_cusps);
  add(parts, "other cusps", t.other_cusps);
  if (t.smallest.thickness_mm > 0)
    parts.push_back(fmt::format("thinnest {:.2f} mm{}", t.smallest.thickness_mm, thinnest_place(t)));
  return fmt::format("{}", fmt::join(parts, ", "));
}

}  // namespace crownproof
