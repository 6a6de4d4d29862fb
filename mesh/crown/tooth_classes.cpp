// SPDX-License-Identifier: AGPL-3.0-or-later
// Sizes: Nelson & Ash, Wheeler's Dental Anatomy (from memory). Places and relative heights of cusps, cusp
// heights and contours: drawn to look right, common practice, no source. Functional cusps: the supporting
// cusps of the same book.
#include "mesh/crown/tooth_classes.hpp"

#include <fmt/core.h>

#include "mesh/geometry_error.hpp"

namespace crownproof {
namespace {

/// Functional cusps lie buccally below and lingually above.
void mark_functional_cusps(ToothClass& tooth) {
  const bool upper = tooth.name.starts_with("upper");
  for (Peak& peak : tooth.peaks) peak.functional = !peak.is_ridge && (peak.y > 0) != upper;
}

ToothClass lower_first_molar() {
  ToothClass t;
  t.name = "lower_first_molar";
  t.mesiodistal_mm = 11.0;
  t.buccolingual_mm = 10.5;
  t.height_mm = 7.5;
  t.cusp_height_mm = 1.8;
  t.fissure_depth_mm = 0.2;
  t.peaks = {{"mesiobuccal_cusp", -0.46, 0.53, 0.94},
             {"distobuccal_cusp", 0.12, 0.56, 0.88},
             {"distal_cusp", 0.60, 0.36, 0.74},
             {"mesiolingual_cusp", -0.42, -0.54, 1.0},
             {"distolingual_cusp", 0.36, -0.54, 0.96},
             {"mesial_marginal_ridge", -0.80, 0, 0.55, true},
             {"distal_marginal_ridge", 0.82, -0.08, 0.45, true}};
  return t;
}

ToothClass lower_second_molar() {
  ToothClass t = lower_first_molar();
  t.name = "lower_second_molar";
  t.mesiodistal_mm = 10.5;
  t.buccolingual_mm = 10.0;
  t.height_mm = 7.0;
  t.cusp_height_mm = 1.7;
  t.peaks = {{"mesiobuccal_cusp", -0.43, 0.54, 1.0},          {"distobuccal_cusp", 0.42, 0.54, 0.94},
             {"mesiolingual_cusp", -0.42, -0.54, 1.0},        {"distolingual_cusp", 0.42, -0.54, 0.94},
             {"mesial_marginal_ridge", -0.80, 0, 0.55, true}, {"distal_marginal_ridge", 0.80, 0, 0.5, true}};
  return t;
}

ToothClass upper_first_molar() {
  ToothClass t;
  t.name = "upper_first_molar";
  t.mesiodistal_mm = 10.0;
  t.buccolingual_mm = 11.0;
  t.height_mm = 7.5;
  t.cusp_height_mm = 1.8;
  t.fissure_depth_mm = 0.2;
  t.outline_shear = 0.12;  // the mesiobuccal and distolingual corners stand out
  t.peaks = {
      {"mesiobuccal_cusp", -0.48, 0.52, 0.94},           {"distobuccal_cusp", 0.34, 0.53, 0.88},
      {"mesiolingual_cusp", -0.26, -0.50, 1.0},          {"distolingual_cusp", 0.56, -0.46, 0.78},
      {"mesial_marginal_ridge", -0.78, 0.08, 0.5, true}, {"distal_marginal_ridge", 0.80, 0, 0.5, true}};
  return t;
}

ToothClass upper_first_premolar() {
  ToothClass t;
  t.name = "upper_first_premolar";
  t.mesiodistal_mm = 7.0;
  t.buccolingual_mm = 9.0;
  t.height_mm = 8.5;
  t.cusp_height_mm = 1.6;
  t.fissure_depth_mm = 0.15;
  t.outline_power = 2.4;
  t.peaks = {{"buccal_cusp", 0, 0.52, 1.0, false, 4.0},
             {"lingual_cusp", -0.06, -0.50, 0.88, false, 4.0},
             {"mesial_marginal_ridge", -0.78, 0, 0.5, true},
             {"distal_marginal_ridge", 0.78, 0, 0.5, true}};
  return t;
}

/// The form with two lingual cusps.
ToothClass lower_second_premolar() {
  ToothClass t;
  t.name = "lower_second_premolar";
  t.mesiodistal_mm = 7.0;
  t.buccolingual_mm = 8.0;
  t.height_mm = 8.0;
  t.cusp_height_mm = 1.3;
  t.fissure_depth_mm = 0.15;
  t.outline_power = 2.4;
  t.peaks = {{"buccal_cusp", 0, 0.50, 1.0, false, 2.0},
             {"mesiolingual_cusp", -0.36, -0.50, 0.85},
             {"distolingual_cusp", 0.40, -0.48, 0.75},
             {"mesial_marginal_ridge", -0.78, 0, 0.5, true},
             {"distal_marginal_ridge", 0.78, 0, 0.45, true}};
  return t;
}

}  // namespace

const std::vector<ToothClass>& tooth_classes() {
  static const std::vector<ToothClass> classes = [] {
    std::vector<ToothClass> all{lower_first_molar(), lower_second_molar(), upper_first_molar(),
                                upper_first_premolar(), lower_second_premolar()};
    for (ToothClass& tooth : all) mark_functional_cusps(tooth);
    return all;
  }();
  return classes;
}

const ToothClass& tooth_class(const std::string& name) {
  std::string known;
  for (const ToothClass& t : tooth_classes()) {
    if (t.name == name) return t;
    known += (known.empty() ? "" : ", ") + t.name;
  }
  throw GeometryError(fmt::format("There is no tooth class '{}'. The classes are: {}.", name, known));
}

}  // namespace crownproof
