// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/case_fields.hpp"

#include <set>

namespace crownproof {
namespace {

Section<SupportCase> support_section() {
  return {{choice("below_finish_line", &SupportCase::below_finish_line,
                  {{"fixed_base", BelowFinishLine::fixed_base}}, "The base of the die is held still")},
          {},
          {}};
}

/// Who writes percent is told so.
Field<StrengthCase> allowed_probability_field() {
  Field<StrengthCase> field = placed_number("allowed_fracture_probability",
                                            &StrengthCase::allowed_fracture_probability, above(0, 0.999),
                                            "The verdict also asks that the probability of fracture (after "
                                            "`years`, if given) is at most this; 0.01 is "
                                            "1 %. Left out: 0.05 where a probability can be computed");
  const auto read = field.assign;
  field.assign = [read](StrengthCase& target, const YamlNode& node, const std::string& path) {
    const double value = to_number(node, "'" + path + "'");
    if (value >= 1 && value <= 100)
      throw UserError(node.place, fmt::format("'{}' is a part of 1, not of 100: write {:g} for {:g} %.", path,
                                              value / 100, value));
    read(target, node, path);
  };
  return field;
}

/// Remembers its place: whether the material has a modulus is known only when all is read.
Field<StrengthCase> compared_with_field() {
  FieldInfo info{
      .key = "compared_with",
      .kind = FieldKind::choice,
      .help =
          "Which value of the strength tensions are compared with: the characteristic one (63.2 % of the "
          "bench specimens break below it) or the one that 95 % of them exceed. Left out: the latter where "
          "the Weibull modulus is known"};
  info.choices = {"exceeded_by_95_percent", "characteristic"};
  return {info, [info](StrengthCase& target, const YamlNode& node, const std::string& path) {
            const bool first = to_choice(node, info.choices, path) == 0;
            target.compared_with = Placed<StrengthBasis>{
                first ? StrengthBasis::exceeded_by_95_percent : StrengthBasis::characteristic, node.place};
          }};
}

Section<LayerPlanesCase> layer_planes_section() {
  using L = LayerPlanesCase;
  return {
      {truth("slide", &L::slide,
             "Layer planes pressed shut slide against friction and so add to what breaks; otherwise they add "
             "nothing, as in the multiaxial theories of brittle fracture"),
       number(
           "friction_coefficient", &L::friction_coefficient, between(0, 10),
           "Of layer planes that slide: shear counts less this times the pressure. Without `slide` it only "
           "tells how much the verdict would change. Assumed, no source for printed ceramics"),
       number("shear_divisor", &L::shear_divisor, between(0.1, 10),
              "Shear of a layer plane counts as tension of shear divided by this. Left out: 1 - nu/2 of the "
              "material, the value of penny-shaped flaws")},
      {},
      {}};
}

Section<StrengthCase> strength_case_section() {
  return {
      {number("required_safety_factor", &StrengthCase::required_safety_factor, between(0.1, 100),
              "Strength divided by the highest tension must be at least this"),
       number("years", &StrengthCase::years, between(0, 100),
              "Look ahead so many years of chewing at the loads of each bite; 0: only now"),
       number("cycles_per_year", &StrengthCase::cycles_per_year, between(1, 10000000),
              "Chewing cycles a year; a convention of chewing simulators, real counts differ several-fold"),
       number("chewing_force_share", &StrengthCase::chewing_force_share, between(0.01, 1),
              "Force of a chewing cycle as a part of the bite's force. At 1 every cycle has the full force "
              "of the "
              "bite, which is hard on a crown: people chew with far less than they can bite"),
       compared_with_field(), allowed_probability_field(),
       section("layer_planes", &StrengthCase::layer_planes, layer_planes_section(),
               "Layered (printed) ceramics: what shear and pressure between the layers do")},
      {},
      {}};
}

Section<AccuracyCase> accuracy_section() {
  return {
      {whole_number("cells", &AccuracyCase::cells, between(5000, 2000000),
                    "About how many cells the mesh gets, if stress_percent is not given"),
       number(
           "stress_percent", &AccuracyCase::stress_percent, between(1, 50),
           "Meshes are refined until the deciding tensions are known within this, plus or minus; without it "
           "a scouting mesh and one of `cells` are made"),
       whole_number("max_cells", &AccuracyCase::max_cells, between(20000, 20000000),
                    "Refinement stops at this many cells"),
       whole_number("max_passes", &AccuracyCase::max_passes, between(2, 20),
                    "Refinement stops after this many meshes")},
      {},
      {}};
}

Section<ResultsCase> results_section() {
  return {{choice("fields", &ResultsCase::fields,
                  {{"full", FieldFiles::full}, {"surface", FieldFiles::surface}, {"none", FieldFiles::none}},
                  "full: fields.vtu with displacement and stress everywhere, some 100 bytes a node and bite; "
                  "surface: the same on the surface of the crown or specimen only; none: tables and pictures "
                  "only")},
          {},
          {}};
}

Section<PictureWishes> pictures_section() {
  using P = PictureWishes;
  return {{choice("quantity", &P::quantity,
                  {{"share_of_strength", PictureQuantity::share_of_strength},
                   {"tension", PictureQuantity::tension}},
                  "What the colours show: the share of the strength that is used, percent, which designs and "
                  "materials can be compared by; or the tension that decides, MPa"),
           choice("format", &P::format,
                  {{"png", PictureFormat::png}, {"svg", PictureFormat::svg}, {"pdf", PictureFormat::pdf}},
                  "Kind of file; in svg and pdf words and lines stay sharp at any size"),
           whole_number("dpi", &P::dpi, between(72, 1200), "Pixels an inch at a printed width of 120 mm")},
          {},
          {}};
}

/// Bites are told apart by their names in tables and pictures.
void check_bite_names(const CaseFile& value, const YamlNode& node, const std::string&) {
  if (value.bites.empty()) return;
  std::set<std::string> names;
  const YamlNode& bites = *node.find("bites");
  for (std::size_t i = 0; i < value.bites.size(); ++i)
    if (!names.insert(value.bites[i].name).second)
      throw UserError(bites.items[i].place,
                      fmt::format("two bites are named '{}'. Give each its own name.", value.bites[i].name));
}

/// Keys that mean nothing for a specimen are refused rather than passed over.
void check_specimen_keys(const CaseFile& value, const YamlNode& node) {
  if (!value.specimen) return;
  for (const auto& [key, instead] : std::vector<std::pair<const char*, const char*>>{
           {"build", "Give 'specimen.layer_normal' instead."},
           {"support", "The fixture follows from 'specimen.test'."},
           {"accuracy", "A specimen is computed on one mesh; give 'specimen.cells_through_thickness'."}})
    if (const YamlNode* found = node.find(key))
      throw UserError(found->place, fmt::format("'{}' is for crowns and flat stacks. {}", key, instead));
}

void check_case(const CaseFile& value, const YamlNode& node, const std::string& path) {
  check_bite_names(value, node, path);
  check_specimen_keys(value, node);
}

Section<CaseFile> make_section() {
  using C = CaseFile;
  Section<CaseFile> all;
  all.fields = {
      required(whole_number("crownproof", &C::format, between(case_format, case_format),
                            "Version of this file format")),
      text("title", &C::title, "Title of the results"),
      section("crown", &C::crown, crown_section(), "A designed crown on its abutment"),
      section("flat_stack", &C::flat_stack, flat_stack_section(),
              "A round flat stack of ceramic, cement and die, whose stresses are known exactly"),
      section("specimen", &C::specimen, specimen_section(),
              "A bench specimen in its test; it names its own material and load"),
      section("materials", &C::materials, materials_case_section(), "What each part is made of"),
      texts("materials_files", &C::materials_files, "Your own materials files, relative to the case file"),
      section("build", &C::build, build_section(), "How a layered (printed) crown was built"),
      section("support", &C::support, support_section(), "What holds the die"),
      sections("bites", &C::bites, bite_section(), "Sets of contacts that act together"),
      section("strength", &C::strength, strength_case_section(), "What the verdict asks for"),
      section("accuracy", &C::accuracy, accuracy_section(), "How fine to compute"),
      section("results", &C::results, results_section(), "Which files are written"),
      section("pictures", &C::pictures, pictures_section(), "How pictures look"),
      sections(
          "expected", &C::expected, expected_section(),
          "Values known from theory, a test or another program; the summary shows them beside those found"),
  };
  all.one_of = {{"crown", "flat_stack", "specimen"}, {"materials", "specimen"}, {"bites", "specimen"}};
  all.check = check_case;
  return all;
}

}  // namespace

const Section<CaseFile>& case_section() {
  static const Section<CaseFile> section = make_section();
  return section;
}

}  // namespace crownproof
