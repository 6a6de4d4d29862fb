// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/case_fields.hpp"

#include <map>
#include <optional>

#include "mesh/crown/tooth_classes.hpp"

namespace crownproof {
namespace {

std::vector<std::pair<std::string, std::string>> tooth_names() {
  std::vector<std::pair<std::string, std::string>> names;
  for (const ToothClass& tooth : tooth_classes()) names.emplace_back(tooth.name, tooth.name);
  return names;
}

constexpr double mm_per_um = 1e-3;

/// The tooth class of a two-digit tooth number (ISO 3950: quadrant, then position from the midline), if there
/// is one: left and right are mirror images.
std::optional<std::string> tooth_of_number(const std::string& number) {
  static const std::map<std::string, std::string> names{
      {"16", "upper_first_molar"},    {"26", "upper_first_molar"},    {"36", "lower_first_molar"},
      {"46", "lower_first_molar"},    {"37", "lower_second_molar"},   {"47", "lower_second_molar"},
      {"14", "upper_first_premolar"}, {"24", "upper_first_premolar"}, {"35", "lower_second_premolar"},
      {"45", "lower_second_premolar"}};
  const auto found = names.find(number);
  return found == names.end() ? std::nullopt : std::optional(found->second);
}

Section<FinishLine> finish_line_section() {
  using F = FinishLine;
  return {
      {
          choice("form", &F::form,
                 {{"chamfer", FinishLineForm::chamfer},
                  {"shoulder", FinishLineForm::shoulder},
                  {"knife_edge", FinishLineForm::knife_edge}},
                 "Form of the finish line"),
          number("width_mm", &F::width_mm, between(0.25, 2), "Width of the finish line"),
          number("inner_radius_mm", &F::inner_radius_mm, between(0.05, 1.5),
                 "Rounding of a shoulder's inner angle, at most 0.85 of its width; a chamfer is one round "
                 "of 0.85 of its width"),
          number("scallop_mm", &F::scallop_mm, between(0, 3),
                 "How much higher the finish line lies mesially and distally than in the buccal and lingual "
                 "middle; natural gum lines of molars and premolars rise by about 0.5 to 1 mm (from memory)"),
      },
      {},
      {}};
}

void check_cusps(const CrownParameters& value, const YamlNode& node) {
  if (!value.functional_cusp_thickness_mm ||
      *value.functional_cusp_thickness_mm >= value.occlusal_thickness_mm)
    return;
  throw UserError(node.find("functional_cusp_thickness_mm")->place,
                  "the functional cusps cannot be thinner than the occlusal table. Ask for at least the "
                  "occlusal thickness, or remove 'functional_cusp_thickness_mm'.");
}

/// The crown's tooth by its name. Who writes the number of a tooth (two digits, ISO 3950) is told the name.
Field<CrownParameters> tooth_field() {
  Field<CrownParameters> field =
      choice("tooth", &CrownParameters::tooth, tooth_names(), "Tooth whose anatomy the crown has");
  const auto read = field.assign;
  field.assign = [read](CrownParameters& target, const YamlNode& node, const std::string& path) {
    if (const auto name = tooth_of_number(node.text))
      throw UserError(node.place,
                      fmt::format("'{}' takes the name of a tooth, not its tooth number '{}'. Write '{}'.",
                                  path, node.text, *name));
    read(target, node, path);
  };
  return field;
}

/// Bounds alone cannot say "none, or at least so much".
template <class Shape>
void check_cement(const Shape& value, const YamlNode& node, const std::string& path,
                  const Bounds& allowed_um) {
  if (value.cement_thickness_mm == 0 || value.cement_thickness_mm >= mm_per_um * *allowed_um.low) return;
  const YamlNode& cement = *node.find("cement_thickness_um");
  throw UserError(cement.place,
                  fmt::format("'{}.cement_thickness_um' is {} µm; allowed is {} µm, or 0 for none.", path,
                              cement.text, bounds_text(allowed_um)));
}

void check_heights(const CrownParameters& value, const YamlNode& node, const std::string& path) {
  check_cement(value, node, path, between(10, 300));
  if (value.height_mm && value.abutment_height_mm)
    throw UserError(
        node.find("abutment_height_mm")->place,
        "with the occlusal thickness, the crown's height and the abutment's height follow from each "
        "other. Remove 'height_mm' or 'abutment_height_mm'.");
}

}  // namespace

Section<CrownParameters> crown_section() {
  using C = CrownParameters;
  Section<C> all;
  all.fields = {
      required(tooth_field()),
      required(
          number("occlusal_thickness_mm", &C::occlusal_thickness_mm, between(0.2, 6),
                 "Smallest distance from the outer surface to the intaglio over the occlusal table, between "
                 "cusp tips and fossae")),
      number("functional_cusp_thickness_mm", &C::functional_cusp_thickness_mm, between(0.2, 6),
             "The same at the functional cusps (lower buccal, upper lingual) and on their outer slopes, at "
             "least the occlusal thickness; left out: equal to it"),
      number("axial_thickness_mm", &C::axial_thickness_mm, between(0.3, 4),
             "Smallest distance from the axial surface to the intaglio, at mid-height of the abutment"),
      section("finish_line", &C::finish_line, finish_line_section(), "Where the crown ends on the tooth"),
      number("total_occlusal_convergence_deg", &C::total_occlusal_convergence_deg, between(2, 40),
             "Angle between opposite axial walls of the abutment"),
      number("cement_thickness_um", &C::cement_thickness_mm, between(0, 300),
             "Thickness of the cement, at least 10; 0: bonded directly", mm_per_um),
      number("abutment_height_mm", &C::abutment_height_mm, between(1.5, 9),
             "Height of the abutment below the central fossa; left out, it follows from the crown's height"),
      number(
          "line_angle_radius_mm", &C::line_angle_radius_mm, between(0.1, 2),
          "Rounding of the abutment's line angles and cusps; sharper (down to 0.15) where a round cusp would "
          "make the crown much thicker than asked"),
      number("root_height_mm", &C::root_height_mm, between(1, 20),
             "Height of the root below the finish line"),
      number("mesiodistal_mm", &C::mesiodistal_mm, between(4, 15),
             "Width of the crown; left out: natural for the tooth"),
      number("buccolingual_mm", &C::buccolingual_mm, between(4, 15),
             "Depth of the crown; left out: natural for the tooth"),
      number("height_mm", &C::height_mm, between(3, 16),
             "Finish line to the highest cusp tip; left out: natural for the tooth"),
      number("cusp_height_mm", &C::cusp_height_mm, between(0.3, 5),
             "Central fossa to the highest cusp tip; left out: natural for the tooth"),
      number("fissure_depth_mm", &C::fissure_depth_mm, between(0, 1),
             "Extra depth of the grooves; left out: natural for the tooth"),
  };
  all.check = [](const CrownParameters& value, const YamlNode& node, const std::string& path) {
    check_heights(value, node, path);
    check_cusps(value, node);
  };
  return all;
}

Section<FlatStackParameters> flat_stack_section() {
  using F = FlatStackParameters;
  return {{
              number("radius_mm", &F::radius_mm, between(0.5, 100), "Radius of the stack"),
              required(number("ceramic_thickness_mm", &F::ceramic_thickness_mm, between(0.1, 10),
                              "Thickness of the ceramic")),
              number("cement_thickness_um", &F::cement_thickness_mm, between(0, 500),
                     "Thickness of the cement, at least 5; 0: the ceramic is bonded to the die directly",
                     mm_per_um),
              number("die_thickness_mm", &F::die_thickness_mm, between(0.5, 100), "Thickness of the die"),
          },
          {},
          [](const FlatStackParameters& value, const YamlNode& node, const std::string& path) {
            check_cement(value, node, path, between(5, 500));
          }};
}

}  // namespace crownproof
