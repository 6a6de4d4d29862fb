// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/units.hpp"

#include <map>

namespace crownproof {

std::string in_small_letters(const std::string& text) {
  std::string small = text;
  for (char& c : small)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return small;
}

std::optional<Unit> unit_of(const std::string& text) {
  using D = Dimension;
  // kgf and lbf by their definitions (9.80665 m/s2; 0.45359237 kg; 25.4 mm an inch), psi from those.
  static const std::map<std::string, Unit> units{{"n", {D::force, 1}},
                                                 {"kn", {D::force, 1000}},
                                                 {"kgf", {D::force, 9.80665}},
                                                 {"lbf", {D::force, 4.4482216152605}},
                                                 {"mpa", {D::stress, 1}},
                                                 {"n/mm2", {D::stress, 1}},
                                                 {"n/mm^2", {D::stress, 1}},
                                                 {"n/mm\xC2\xB2", {D::stress, 1}},
                                                 {"gpa", {D::stress, 1000}},
                                                 {"kpa", {D::stress, 1e-3}},
                                                 {"pa", {D::stress, 1e-6}},
                                                 {"psi", {D::stress, 0.00689475729316836}},
                                                 {"ksi", {D::stress, 6.89475729316836}},
                                                 {"mm", {D::length, 1}},
                                                 {"cm", {D::length, 10}},
                                                 {"m", {D::length, 1000}},
                                                 {"um", {D::length, 1e-3}},
                                                 {"\xC2\xB5m", {D::length, 1e-3}},
                                                 {"\xCE\xBCm", {D::length, 1e-3}},
                                                 {"in", {D::length, 25.4}},
                                                 {"inch", {D::length, 25.4}},
                                                 {"deg", {D::angle, 1}},
                                                 {"degrees", {D::angle, 1}},
                                                 {"\xC2\xB0", {D::angle, 1}}};
  if (text == "mN" || text == "mPa") return std::nullopt;
  const auto found = units.find(in_small_letters(text));
  return found == units.end() ? std::nullopt : std::optional<Unit>(found->second);
}

std::string unit_inside(Dimension dimension) {
  switch (dimension) {
    case Dimension::force:
      return "N";
    case Dimension::stress:
      return "MPa";
    case Dimension::length:
      return "mm";
    case Dimension::angle:
      return "degrees";
    case Dimension::none:
      break;
  }
  return "";
}

}  // namespace crownproof
