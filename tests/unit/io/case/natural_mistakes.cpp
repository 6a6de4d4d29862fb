// SPDX-License-Identifier: AGPL-3.0-or-later
// Mistakes that people make in case files. Each message has the place and the cause, and a remedy that works
// when it is followed: the repaired case is read and its shape built.
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/support/case_text.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

/// A complete crown case; line numbers matter.
std::string crown_case(bool study) {
  const std::string text =
      "crownproof: 1\n"                                                                    // 1
      "crown:\n"                                                                           // 2
      "  tooth: lower_first_molar\n"                                                       // 3
      "  occlusal_thickness_mm: 1.0\n"                                                     // 4
      "  finish_line: {form: chamfer, width_mm: 0.5}\n"                                    // 5
      "  cement_thickness_um: 80\n"                                                        // 6
      "materials:\n"                                                                       // 7
      "  crown: zirconia_3y_printed\n"                                                     // 8
      "  cement: resin_cement\n"                                                           // 9
      "  die: dentin\n"                                                                    // 10
      "build: {tilt_deg: 45, toward: buccal}\n"                                            // 11
      "bites:\n"                                                                           // 12
      "  - name: clench\n"                                                                 // 13
      "    contacts:\n"                                                                    // 14
      "      - {at: central_fossa, force_N: 300, radius_mm: 0.6}\n"                        // 15
      "      - {at_mm: [2, -1], force_N: 100, radius_mm: 0.5}\n"                           // 16
      "strength: {required_safety_factor: 1.5, years: 5}\n"                                // 17
      "accuracy: {cells: 50000}\n";                                                        // 18
  return text + (study ? "study: {vary: {crown.axial_thickness_mm: [0.8, 1.0]}}\n" : "");  // 19
}

struct Mistake {
  const char *from, *to;               ///< in the case above
  const char *place, *cause, *remedy;  ///< of the message
  const char* followed;                ///< in place of `to`, as the remedy says
};

std::vector<Mistake> mistakes_of_writing() {
  return {
      {"force_N: 300", "force_N:300", "15:29", "unknown key", "space after the colon: 'force_N: 300'",
       "force_N: 300"},
      {"force_N: 300", "force: 300", "15:29", "unknown key 'force'", "force_N", "force_N: 300"},
      {"force_N: 300", "force_kN: 0.3", "15:29", "unknown key", "did you mean 'force_N'", "force_N: 300"},
      {"force_N: 300", "Force_N: 300", "15:29", "unknown key", "did you mean 'force_N'", "force_N: 300"},
      {"force_N: 300", "force_N: 300 N", "15:38", "must be a number", "Write 300 alone", "force_N: 300"},
      {"force_N: 300", "force_N: '300'", "15:38", "stands in quotes", "quotes", "force_N: 300"},
      {"force_N: 300", "force_N: three hundred", "15:38", "must be a number", "decimal number",
       "force_N: 300"},
      {"force_N: 300", "force_N: 0x12C", "15:38", "must be a number", "in decimal", "force_N: 300"},
      {"force_N: 300", "force_N: -300", "15:38", "-300 N", "above 0, at most 10000 N", "force_N: 300"},
      {"force_N: 300", "force_N: 30000", "15:38", "30000 N", "at most 10000 N", "force_N: 3000"},
      {"force_N: 300", "force_N: 1e999", "15:38", "force_N", "number", "force_N: 300"},
      {"force_N: 300, ", "", "15:9", "has no 'force_N'", "Give it one", "force_N: 300, "},
      {"force_N: 300", "force_N: 300, force_N: 200", "15:", "given twice", "Keep one", "force_N: 300"},
      {"occlusal_thickness_mm: 1.0\n", "occlusal_thickness_mm: 1,0\n", "4:26", "must be a number",
       "decimal point", "occlusal_thickness_mm: 1.0\n"},
      {"occlusal_thickness_mm: 1.0\n", "occlusal_thickness_mm: 1.0 mm\n", "4:26", "must be a number",
       "Write 1.0 alone", "occlusal_thickness_mm: 1.0\n"},
      {"occlusal_thickness_mm: 1.0\n", "thickness_mm: 1.0\n", "4:3", "unknown key",
       "did you mean 'occlusal_thickness_mm' or", "occlusal_thickness_mm: 1.0\n"},
      {"occlusal_thickness_mm: 1.0\n", "occlusal_thickness_um: 1000\n", "4:3", "unknown key",
       "did you mean 'occlusal_thickness_mm'", "occlusal_thickness_mm: 1.0\n"},
      {"occlusal_thickness_mm: 1.0\n", "occlusal_thickness_mm: 1000\n", "4:26", "1000 mm", "0.2 to 6 mm",
       "occlusal_thickness_mm: 1.0\n"},
      {"width_mm: 0.5", "width_mm: 0,5", "5:", "unknown key '5'", "decimal point", "width_mm: 0.5"},
      {"form: chamfer", "form: Chamfer", "5:23", "unknown choice", "did you mean 'chamfer'", "form: chamfer"},
      {"form: chamfer", "form: hollow", "5:23", "unknown choice", "chamfer, shoulder", "form: shoulder"},
      {"form: chamfer", "from: chamfer", "5:17", "unknown key", "did you mean 'form'", "form: chamfer"},
      {"{form: chamfer, width_mm: 0.5}", "chamfer", "5:16", "must hold keys", "form", "{form: chamfer}"},
      {"cement_thickness_um: 80", "cement_thickness_mm: 0.08", "6:3", "unknown key",
       "did you mean 'cement_thickness_um'", "cement_thickness_um: 80"},
      {"cement_thickness_um: 80", "cement_thickness_um: 0.08", "6:24", "0.08 µm", "10 to 300",
       "cement_thickness_um: 80"},
      {"cement_thickness_um: 80", "cement_thickness_um: 800", "6:24", "800 µm", "300",
       "cement_thickness_um: 80"},
      {"tooth: lower_first_molar", "tooth: 36", "3:10", "tooth number", "lower_first_molar",
       "tooth: lower_first_molar"},
      {"tooth: lower_first_molar", "tooth: first_lower_molar", "3:10", "unknown choice", "lower_first_molar",
       "tooth: lower_first_molar"},
      {"tooth: lower_first_molar", "tooth: lower first molar", "3:10", "unknown choice",
       "did you mean 'lower_first_molar'", "tooth: lower_first_molar"},
      {"  tooth: lower_first_molar\n", "", "3:3", "lacks the key 'tooth'", "Tooth whose anatomy",
       "  tooth: lower_first_molar\n"},
  };
}

std::vector<Mistake> mistakes_of_meaning() {
  return {
      {"crown: zirconia_3y_printed", "crown: zirconia", "8:10", "unknown material", "did you mean 'zirconia_",
       "crown: zirconia_3y_milled"},
      {"crown: zirconia_3y_printed", "crown: Zirconia_3Y_printed", "8:10", "unknown material",
       "did you mean 'zirconia_3y_printed'", "crown: zirconia_3y_printed"},
      {"crown: zirconia_3y_printed", "crown: dentin", "8:10", "has no strength", "Choose another",
       "crown: zirconia_3y_milled"},
      {"  cement: resin_cement\n", "", "8:10", "names no cement", "cement: resin_cement",
       "  cement: resin_cement\n"},
      {"  die: dentin\n", "", "8:3", "die", "dentin", "  die: dentin\n"},
      {"materials:\n", "material:\n", "7:1", "unknown key 'material'", "did you mean 'materials'",
       "materials:\n"},
      {"materials:\n", "Materials:\n", "7:1", "unknown key", "did you mean 'materials'", "materials:\n"},
      {"crown: zirconia_3y_printed", "crown: {youngs_modulus_GPa: 210, poisson_ratio: 0.6}",
       "8:", "poisson_ratio", "allowed", "crown: zirconia_3y_milled"},
      {"crown: zirconia_3y_printed", "crown: {youngs_modulus_MPa: 210000, poisson_ratio: 0.3}", "8:11",
       "unknown key", "did you mean 'youngs_modulus_GPa'", "crown: zirconia_3y_milled"},
      {"tilt_deg: 45", "tilt: 45", "11:9", "unknown key 'tilt'", "write tilt_deg", "tilt_deg: 45"},
      {"tilt_deg: 45", "tilt_deg: 45°", "11:19", "must be a number", "Write 45 alone", "tilt_deg: 45"},
      {"toward: buccal", "toward: vestibular", "11:", "unknown choice", "buccal, lingual", "toward: buccal"},
      {"at: central_fossa", "at: central fossa", "15:14", "unknown landmark", "did you mean 'central_fossa'",
       "at: central_fossa"},
      {"at: central_fossa", "at: palatal_cusp_tip", "15:14", "unknown landmark", "mesiobuccal_cusp_tip",
       "at: mesiobuccal_cusp_tip"},
      {"at: central_fossa, ", "", "15:", "needs one of these keys", "at, at_mm", "at: central_fossa, "},
      {"at: central_fossa", "at: central_fossa, at_mm: [0, 0]", "15:", "at_mm", "at", "at: central_fossa"},
      {"at_mm: [2, -1]", "at_mm: [20, -1]", "16:", "off the crown", "Choose a point above", "at_mm: [2, -1]"},
      {"at_mm: [2, -1]", "at_mm: 2, -1", "16:", "unknown key", "at_mm", "at_mm: [2, -1]"},
      {"at_mm: [2, -1]", "at_mm: [2]", "16:17", "list of 2 numbers", "[1.5, -2.0]", "at_mm: [2, -1]"},
      {"at_mm: [2, -1]", "at_mm: [0.2, 0]", "16:", "overlap", "move them apart", "at_mm: [2, -1]"},
      {"radius_mm: 0.6", "radius_mm: 4", "15:14", "larger than the surface can bear", "at most",
       "radius_mm: 0.8"},
      {"radius_mm: 0.6", "direction: [0, 0, 1]", "15:14", "does not press into the surface", "surface_normal",
       "direction: surface_normal"},
      {"radius_mm: 0.6", "direction: [0, 0, 0]", "15:", "has no direction", "[0, 0.3, -1]",
       "direction: [0, 0.3, -1]"},
      {"radius_mm: 0.6", "direction: normal", "15:", "unknown choice", "surface_normal",
       "direction: surface_normal"},
      {"years: 5", "years: ten", "17:", "must be a number", "decimal number", "years: 10"},
      {"years: 5", "year: 5", "17:", "unknown key", "did you mean 'years'", "years: 5"},
      {"required_safety_factor: 1.5", "safety_factor: 1.5", "17:12", "unknown key",
       "did you mean 'required_safety_factor'", "required_safety_factor: 1.5"},
      {"years: 5", "allowed_fracture_probability: 5", "17:", "part of 1, not of 100", "write 0.05 for 5 %",
       "allowed_fracture_probability: 0.05"},
      {"cells: 50000", "cells: 50 000", "18:19", "must be a number", "Write 50000 without gaps",
       "cells: 50000"},
      {"cells: 50000", "cells: 50", "18:19", "'accuracy.cells' is 50", "5000 to 2000000", "cells: 5000"},
      {"[0.8, 1.0]", "[0,8, 0,9]", "19:", "twice", "[1.2, 1.3]", "[0.8, 0.9]"},
      {"crown.axial_thickness_mm: [", "axial_thickness_mm: [", "19:", "unknown key", "crown",
       "crown.axial_thickness_mm: ["},
      {"[0.8, 1.0]", "1.0", "19:", "must be a list", "list", "[1.0]"},
      {"crownproof: 1\n", "crownproof: 0.2\n", "1:13", "format 1", "Write 'crownproof: 1'",
       "crownproof: 1\n"},
      {"crownproof: 1\n", "", "1:1", "lacks the key 'crownproof'", "Add 'crownproof:'", "crownproof: 1\n"},
      {"  die: dentin\n", "\tdie: dentin\n", "10:", "YAML", "spaces, not with tabs", "  die: dentin\n"},
      {"  - name: clench\n", "  - contacts_name: clench\n", "13:", "unknown key", "name",
       "  - name: clench\n"},
      {"strength: {", "strength: ", "17:", "YAML", "brackets", "strength: {"},
      {"accuracy: {cells: 50000}\n", "expected: [{bite: clinch, safety_factor: 2}]\n", "18:12",
       "unknown bite 'clinch'", "did you mean 'clench'", "expected: [{bite: clench, safety_factor: 2}]\n"},
      {"accuracy: {cells: 50000}\n", "expected: [{variant: thin, bite: clench, tension_MPa: 90}]\n", "18:12",
       "unknown variant 'thin'", "leave 'variant' out", "expected: [{bite: clench, tension_MPa: 90}]\n"},
      {"accuracy: {cells: 50000}\n", "pictures: {format: jpg}\n", "18:20", "unknown choice", "png, svg, pdf",
       "pictures: {format: svg}\n"},
  };
}

void check(const Mistake& mistake) {
  const std::string right = crown_case(std::string(mistake.place).starts_with("19:"));
  const std::string wrong = with(right, mistake.from, mistake.to);
  const std::string message = message_of(wrong);
  INFO("'" << mistake.to << "' gets: " << message);
  CHECK_THAT(message, StartsWith(std::string("case.yaml:") + mistake.place));
  CHECK_THAT(message, Contains(mistake.cause));
  CHECK_THAT(message, Contains(mistake.remedy));
  const std::string followed = with(right, mistake.from, mistake.followed);
  if (followed != right) CHECK(message_of(followed).empty());  // that one is tried once
}

}  // namespace

TEST_CASE("Slips of writing in a case get place, cause and a remedy that works", "[natural_mistakes]") {
  CHECK(message_of(crown_case(false)).empty());
  CHECK(message_of(crown_case(true)).empty());
  for (const Mistake& mistake : mistakes_of_writing()) check(mistake);
}

TEST_CASE("Mistakes of meaning in a case get place, cause and a remedy that works", "[natural_mistakes]") {
  for (const Mistake& mistake : mistakes_of_meaning()) check(mistake);
  CHECK(mistakes_of_writing().size() + mistakes_of_meaning().size() >= 60);
}
