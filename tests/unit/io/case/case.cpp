// SPDX-License-Identifier: AGPL-3.0-or-later
// Every kind of bad input gets its place, what is wrong and what to write instead.

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>

#include "io/case/case.hpp"
#include "io/text/text_encoding.hpp"
#include "mesh/geometry_error.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "tests/support/case_text.hpp"
#include "tests/support/scratch_folder.hpp"

using namespace crownproof;
using Catch::Contains;
using Catch::StartsWith;

namespace {

const std::string given_contacts =
    "    contacts:\n"
    "      - {at: centre, force_N: 300, radius_mm: 0.5}\n"
    "      - {at_mm: [2, -1], force_N: 100, pressure: uniform}\n";

}  // namespace

TEST_CASE("a good case becomes a model in mm, N, MPa", "[casefile][case]") {
  const Case whole = read_and_build(small_case());
  REQUIRE(whole.variants.size() == 1);
  CHECK(whole.title == "Flat stack");
  const Model model = build_model(whole.variants[0].case_file, whole.library);
  REQUIRE(model.materials.size() == 3);
  CHECK(model.materials[0].region == "crown");
  CHECK(model.materials[0].layered);
  CHECK(model.materials[0].material.elastic.youngs_1 == Approx(210000));
  CHECK(model.materials[0].material.strength->in_layer.characteristic_MPa == 1169);
  CHECK(model.materials[0].material.strength->across_layer->weibull_modulus == 6.5);
  // Tilt 30 degrees towards mesial, which is -x.
  const Vec3 normal = model.materials[0].axes.col(2);
  CHECK((normal - Vec3(-0.5, 0, std::sqrt(3.0) / 2)).norm() < 1e-12);
  REQUIRE(model.bites.size() == 1);
  REQUIRE(model.bites[0].contacts.size() == 2);
  const Contact& second = model.bites[0].contacts[1];
  CHECK((second.point - Vec3(2, -1, 1.08)).norm() < 1e-9);
  CHECK((second.direction + Vec3::UnitZ()).norm() < 1e-12);
  CHECK(second.pressure == PressureShape::uniform);
  CHECK(second.radius_mm == 0.5);
  CHECK(model.requirement.safety_factor == 1.0);
}

TEST_CASE("directions: axial, into the surface, given", "[casefile][case]") {
  const auto direction = [](const std::string& text) -> Vec3 {
    const Case whole =
        read_and_build(with(small_case(), "radius_mm: 0.5}", "radius_mm: 0.5, direction: " + text + "}"));
    return build_model(whole.variants[0].case_file, whole.library).bites[0].contacts[0].direction;
  };
  CHECK((direction("axial") + Vec3::UnitZ()).norm() < 1e-12);
  CHECK((direction("surface_normal") + Vec3::UnitZ()).norm() < 1e-12);
  CHECK((direction("[0, 3, -4]") - Vec3(0, 0.6, -0.8)).norm() < 1e-12);
}

TEST_CASE("an antagonist reaches the model in N and MPa, with small cells where it will touch",
          "[casefile][case]") {
  const std::string text =
      with(small_case(), given_contacts,
           "    antagonist: {at: centre, ball: steel_ball, radius_mm: 4, force_N: 200}\n");
  const Case whole = read_and_build(text);
  const Model model = build_model(whole.variants[0].case_file, whole.library);
  REQUIRE(model.bites[0].antagonist);
  const Ball& ball = model.bites[0].antagonist->ball;
  CHECK(model.bites[0].contacts.empty());
  CHECK(ball.force_N == 200);
  CHECK(ball.radius_mm == 4);
  CHECK(ball.youngs_MPa == 200000);
  CHECK_FALSE(ball.held_sideways);
  CHECK((ball.direction + Vec3::UnitZ()).norm() < 1e-12);
  const auto fine = std::any_of(model.size.seeds.begin(), model.size.seeds.end(), [&](const SizeSeed& seed) {
    return (seed.centre - model.bites[0].antagonist->aim).norm() < 0.2 && seed.size_mm < 0.08;
  });
  CHECK(fine);
}

TEST_CASE("a bite has contacts or an antagonist, not both and not neither", "[casefile][case]") {
  const std::string ball = "    antagonist: {at: centre, force_N: 200}\n";
  CHECK_THAT(message_of(with(small_case(), given_contacts, given_contacts + ball)),
             Contains("may have only one of these keys: contacts, antagonist."));
  CHECK_THAT(message_of(with(small_case(), given_contacts, "")),
             Contains("needs one of these keys: contacts, antagonist."));
  CHECK_THAT(message_of(with(small_case(), given_contacts, with(ball, "at:", "ball: brass, at:"))),
             Contains("enamel_cusp, steel_ball, rigid"));
}

TEST_CASE("unknown, doubled and missing keys", "[casefile][case]") {
  CHECK_THAT(message_of(with(small_case(), "ceramic_thickness_mm", "ceramic_thicknes_mm")),
             StartsWith("case.yaml:5:3: unknown key 'ceramic_thicknes_mm' in 'flat_stack'; did you mean "
                        "'ceramic_thickness_mm'? Allowed: radius_mm, ceramic_thickness_mm,"));
  CHECK_THAT(message_of(with(small_case(), "ceramic_thickness_mm", "ceramic_thickness")),
             Contains("units are part of the key: write ceramic_thickness_mm."));
  CHECK_THAT(
      message_of(with(small_case(), "force_N: 300", "force: 300")),
      StartsWith("case.yaml:15:22: unknown key 'force' in 'bites.1.contacts.1'; units are part of the key: "
                 "write force_N."));
  CHECK_THAT(message_of(with(small_case(), "  cement_thickness_um: 80\n", "  radius_mm: 80\n")),
             StartsWith("case.yaml:6:3: the key 'radius_mm' is given twice; the first time on line 4."));
  CHECK_THAT(message_of(with(small_case(), "  ceramic_thickness_mm: 1.0\n", "")),
             Contains("'flat_stack' lacks the key 'ceramic_thickness_mm' (Thickness of the ceramic)."));
  CHECK_THAT(message_of(with(small_case(), "crownproof: 1\n", "")),
             Contains("the file lacks the key 'crownproof'"));
  CHECK_THAT(message_of(with(small_case(), "  cement: resin_cement\n", "")), Contains("names no cement"));
  CHECK_THAT(message_of(with(small_case(), "at: centre", "at: centre, at_mm: [0, 0]")),
             Contains("may have only one of these keys: at, at_mm."));
  CHECK_THAT(message_of(with(small_case(), "at: centre, ", "")),
             Contains("needs one of these keys: at, at_mm."));
}

TEST_CASE("keys of later versions are not accepted before they work", "[casefile][case]") {
  CHECK_THAT(message_of(small_case() + "scan: {file: crown.stl}\n"), Contains("unknown key 'scan'"));
}

TEST_CASE("years to look ahead reach the model", "[casefile][case]") {
  const Case whole = read_and_build(small_case() + "strength: {years: 10, cycles_per_year: 300000}\n");
  const Model model = build_model(whole.variants[0].case_file, whole.library);
  CHECK(model.requirement.chewing.years == 10);
  CHECK(model.requirement.chewing.cycles_per_year == 300000);
}

TEST_CASE("how layer planes give way reaches the model, shear follows Poisson's ratio unless given",
          "[casefile][case]") {
  const auto planes = [](const std::string& strength) {
    const Case whole = read_and_build(small_case() + strength);
    return build_model(whole.variants[0].case_file, whole.library).materials[0].layer_planes;
  };
  const LayerPlanes asked_for_nothing = planes("");
  CHECK(asked_for_nothing.shear_divisor == Approx(1 - 0.31 / 2).epsilon(1e-12));
  CHECK_FALSE(asked_for_nothing.slide);
  const LayerPlanes given =
      planes("strength: {layer_planes: {slide: true, friction_coefficient: 0.3, shear_divisor: 0.9}}\n");
  CHECK(given.slide);
  CHECK(given.friction == 0.3);
  CHECK(given.shear_divisor == 0.9);
  CHECK_THAT(message_of(small_case() + "strength: {layer_planes: {friction_coefficient: -1}}\n"),
             StartsWith("case.yaml:17:49:") && Contains("0 to 10"));
}

TEST_CASE("the layers of a bench specimen lie as the case says", "[casefile][case]") {
  const auto normal = [](const std::string& test, const std::string& layers) -> Vec3 {
    const Case whole = read_and_build("crownproof: 1\nspecimen: {test: " + test +
                                      ", material: zirconia_3y_printed, load_N: 100" + layers + "}\n");
    return build_model(whole.variants[0].case_file, whole.library).materials[0].axes.col(2);
  };
  // Bars and discs lie flat under the load, blocks stand along it: solver/loads/specimen_problem.hpp.
  const std::string bar = "3_point_bending, width_mm: 4, thickness_mm: 3, span_mm: 40";
  CHECK((normal(bar, "") - Vec3::UnitZ()).norm() < 1e-12);
  CHECK((normal(bar, ", layer_normal: width") - Vec3::UnitY()).norm() < 1e-12);
  CHECK((normal(bar, ", layer_normal: length") - Vec3::UnitX()).norm() < 1e-12);
  const std::string block = "tension, width_mm: 4, thickness_mm: 3, length_mm: 8";
  CHECK((normal(block, "") - Vec3::UnitY()).norm() < 1e-12);
  CHECK((normal(block, ", layer_normal: width") - Vec3::UnitX()).norm() < 1e-12);
  CHECK((normal(block, ", layer_normal: length") - Vec3::UnitZ()).norm() < 1e-12);
  const std::string disc =
      "piston_on_three_balls, thickness_mm: 1.2, diameter_mm: 14, support_diameter_mm: 11, "
      "loading_diameter_mm: 1.4";
  CHECK((normal(disc, ", layer_tilt_deg: 30") - Vec3(0.5, 0, std::sqrt(0.75))).norm() < 1e-12);
  CHECK_THAT(message_of("crownproof: 1\nspecimen: {test: " + bar +
                        ", material: zirconia_3y_printed, load_N: 100, layer_tilt_deg: 30}\n"),
             StartsWith("case.yaml:2:138:") && Contains("only a disc on three balls"));
}

TEST_CASE("an allowed probability of fracture needs a material with statistics", "[casefile][case]") {
  const std::string asked = small_case() + "strength: {allowed_fracture_probability: 0.01}\n";
  const Case whole = read_and_build(asked);
  const Model model = build_model(whole.variants[0].case_file, whole.library);
  CHECK(model.requirement.allowed_fracture_probability == 0.01);
  CHECK_FALSE(model.requirement.allowed_by_default);
  CHECK_THAT(
      message_of(with(asked, "zirconia_3y_printed",
                      "{youngs_modulus_GPa: 200, poisson_ratio: 0.3, strength: {characteristic_MPa: 900}}")),
      StartsWith("case.yaml:17:42: 'strength.allowed_fracture_probability' cannot be judged") &&
          Contains("no Weibull modulus"));
  CHECK_THAT(message_of(with(asked, "0.01", "5")), Contains("write 0.05 for 5 %"));
  CHECK_THAT(message_of(with(asked, "0.01", "-5")), Contains("above 0, at most 0.999"));
}

TEST_CASE("Cement is none or at least so thick, told in the unit of its key", "[casefile][case]") {
  CHECK_THAT(message_of(with(small_case(), "cement_thickness_um: 80", "cement_thickness_um: 0.08")),
             StartsWith("case.yaml:6:24: 'flat_stack.cement_thickness_um' is 0.08 µm") &&
                 Contains("5 to 500 µm, or 0 for none"));
  CHECK(message_of(with(small_case(), "cement_thickness_um: 80", "cement_thickness_um: 5")).empty());
  CHECK(message_of(with(small_case(), "cement_thickness_um: 80", "cement_thickness_um: 500")).empty());
}

TEST_CASE("Limits that a case leaves out are the usual ones", "[casefile][case]") {
  const auto model_of = [](const std::string& text) {
    const Case whole = read_and_build(text);
    return build_model(whole.variants[0].case_file, whole.library);
  };
  const auto strength_of = [](const Model& model) {
    return model.materials.front().material.strength->in_layer;
  };
  const Model usual = model_of(small_case());
  CHECK(usual.requirement.allowed_fracture_probability == 0.05);
  CHECK(usual.requirement.allowed_by_default);
  const Strength s = strength_of(usual);
  CHECK_THAT(s.judged_MPa(),
             Catch::WithinRel(s.characteristic_MPa * std::pow(0.0512933, 1 / s.weibull_modulus), 1e-6));
  CHECK(strength_of(model_of(small_case() + "strength: {compared_with: characteristic}\n")).judged_MPa() ==
        s.characteristic_MPa);
  const std::string plain =
      with(small_case(), "zirconia_3y_printed",
           "{youngs_modulus_GPa: 200, poisson_ratio: 0.3, strength: {characteristic_MPa: 900}}");
  const Model without_modulus = model_of(plain);
  CHECK_FALSE(without_modulus.requirement.allowed_fracture_probability);
  CHECK(strength_of(without_modulus).judged_MPa() == 900);
  CHECK_THAT(message_of(plain + "strength: {compared_with: exceeded_by_95_percent}\n"),
             Contains("case.yaml:17:27") && Contains("without 'weibull_modulus'") &&
                 Contains("compared_with: characteristic"));
}

TEST_CASE("impossible values say what is allowed", "[casefile][case]") {
  CHECK_THAT(
      message_of(with(small_case(), "ceramic_thickness_mm: 1.0", "ceramic_thickness_mm: -1.0")),
      StartsWith("case.yaml:5:25: 'flat_stack.ceramic_thickness_mm' is -1.0 mm; allowed is 0.1 to 10 mm."));
  CHECK_THAT(
      message_of(with(small_case(), "force_N: 300", "force_N: 0")),
      StartsWith(
          "case.yaml:15:31: 'bites.1.contacts.1.force_N' is 0 N; allowed is above 0, at most 10000 N."));
  CHECK_THAT(message_of(with(small_case(), "force_N: 300", "force_N: .nan")),
             Contains("Write a finite number."));
  CHECK_THAT(message_of(with(small_case(), "toward: mesial", "toward: mesail")),
             Contains("did you mean 'mesial'?"));
  CHECK_THAT(message_of(with(small_case(), "[2, -1]", "[2]")), Contains("must be a list of 2 numbers"));
  CHECK_THAT(message_of(with(small_case(), "uniform", "uniform, direction: [0, 0, 0]")),
             Contains("has no direction"));
  CHECK_THAT(message_of(with(small_case(), "uniform", "uniform, direction: [0, 0, 1]")),
             Contains("does not press into the surface"));
  CHECK_THAT(message_of(with(small_case(), "crownproof: 1", "crownproof: 2")),
             StartsWith("case.yaml:1:13: this program reads format 1"));
  CHECK_THAT(message_of(with(small_case(), "title: Flat stack", "title: no")), Contains("Write \"no\"."));
  CHECK_THAT(message_of("[1, 2]\n"), Contains("the file must hold keys, not a list."));
  CHECK_THAT(message_of(with(small_case(), "  - name: clench\n    contacts:\n",
                             "  - name: clench\n    contacts: []\n    x:\n")),
             Contains("unknown key 'x'"));
}

TEST_CASE("places that are not there", "[casefile][case]") {
  CHECK_THAT(
      message_of(with(small_case(), "at: centre", "at: center")),
      StartsWith("case.yaml:15:14: unknown landmark 'center'; did you mean 'centre'? Allowed: centre."));
  CHECK_THAT(message_of(with(small_case(), "[2, -1]", "[20, 0]")),
             StartsWith("case.yaml:16:17: the contact at x 20 mm, y 0 mm lies off the crown."));
  CHECK_THAT(message_of(with(small_case(), "[2, -1]", "[5.8, 0]")), Contains("reaches beyond the crown"));
}

TEST_CASE("materials: unknown, without strength, impossible", "[casefile][case]") {
  CHECK_THAT(
      message_of(with(small_case(), "zirconia_3y_printed", "zirconia_3y_prined")),
      StartsWith(
          "case.yaml:8:10: unknown material 'zirconia_3y_prined'; did you mean 'zirconia_3y_printed'?"));
  CHECK_THAT(message_of(with(small_case(), "zirconia_3y_printed", "dentin")), Contains("has no strength"));
  const std::string orthotropic =
      "{strength: {characteristic_MPa: 900}, orthotropic: {youngs_modulus_1_GPa: 210, youngs_modulus_2_GPa: "
      "210, "
      "youngs_modulus_3_GPa: 150, poisson_ratio_12: 0.31, poisson_ratio_13: 1.4, poisson_ratio_23: 0.3, "
      "shear_modulus_12_GPa: 80, shear_modulus_13_GPa: 60, shear_modulus_23_GPa: 60}}";
  // |nu13| must stay below sqrt(210/150) = 1.183 (Lempriere 1968).
  const std::string message = message_of(with(small_case(), "zirconia_3y_printed", orthotropic));
  CHECK_THAT(message, StartsWith("case.yaml:8:"));
  CHECK_THAT(message, Contains("no real material can have the elastic constants of 'materials.crown'"));
  CHECK_THAT(message, Contains("1.18"));
  CHECK(message_of(with(small_case(), "zirconia_3y_printed", with(orthotropic, "1.4", "0.3"))).empty());
  CHECK_THAT(message_of(with(small_case(), "dentin", "{youngs_modulus_GPa: 18}")),
             Contains("lacks 'poisson_ratio'"));
  CHECK_THAT(message_of(with(small_case(), "dentin", "{youngs_modulus_GPa: 18600, poisson_ratio: 0.3}")),
             Contains("at most 2000 GPa"));
  CHECK_THAT(message_of(with(small_case(), "dentin", "{youngs_modulus_GPa: 18, poisson_ratio: 0.5}")),
             Contains("0.4999"));
}

TEST_CASE("the user's own materials file lies beside the case", "[casefile][case]") {
  const ScratchFolder scratch;
  std::ofstream(scratch.path() / "mine.yaml")
      << "materials: {my_dentin: {youngs_modulus_GPa: 15, poisson_ratio: 0.3}}\n";
  const auto file = scratch.path() / "case.yaml";
  std::ofstream(file) << with(small_case(), "die: dentin", "die: my_dentin") +
                             "materials_files: [mine.yaml]\n";
  const Case whole = read_case(file, test_library());
  CHECK(build_model(whole.variants[0].case_file, whole.library).materials[2].material.elastic.youngs_1 ==
        15000);
  std::ofstream(file) << small_case() + "materials_files: [other.yaml]\n";
  CHECK_THROWS_WITH(read_case(file, test_library()), Contains("case.yaml:17:19: there is no materials file"));
}

TEST_CASE("a crown asked thicker than its anatomy allows is refused with place and remedy",
          "[casefile][case]") {
  const std::string text =
      "crownproof: 1\n"
      "crown: {tooth: lower_first_molar, occlusal_thickness_mm: 5.5}\n"
      "materials: {crown: zirconia_3y_milled, cement: resin_cement, die: dentin}\n"
      "bites: [{name: clench, contacts: [{at: central_fossa, force_N: 300}]}]\n";
  CHECK_THROWS_AS(read_and_build(text), GeometryError);
  CHECK_THROWS_WITH(read_and_build(text), StartsWith("case.yaml:2:8: The occlusal thickness of 5.5 mm") &&
                                              Contains("largest possible"));
  CHECK(message_of(with(text, "5.5", "1.0")).empty());
  CHECK_THAT(message_of(with(text, "5.5", "-1.0")),
             StartsWith("case.yaml:2:58: 'crown.occlusal_thickness_mm' is -1.0"));
  CHECK_THAT(message_of(with(text, "lower_first_molar", "lower_first_moler")),
             Contains("did you mean 'lower_first_molar'?"));
  CHECK_THAT(message_of(with(text, "5.5", "1.0, height_mm: 7, abutment_height_mm: 4")),
             Contains("Remove 'height_mm'"));
  CHECK_THAT(message_of(with(with(text, "5.5", "1.0"), "at: central_fossa", "at_mm: [9, 0]")),
             Contains("lies off the crown"));
}

TEST_CASE("cement given in micrometres is millimetres inside", "[casefile][case]") {
  const std::string text =
      "crownproof: 1\n"
      "crown: {tooth: lower_first_molar, occlusal_thickness_mm: 1.0, cement_thickness_um: 60}\n"
      "materials: {crown: zirconia_3y_milled, cement: resin_cement, die: dentin}\n"
      "bites: [{name: clench, contacts: [{at: central_fossa, force_N: 300}]}]\n";
  const Case whole = parse_case(text, "case.yaml", test_library());
  CHECK(whole.variants[0].case_file.crown->value.cement_thickness_mm == Approx(0.06).epsilon(1e-14));
}

TEST_CASE("the cases that come with the program are read and built", "[casefile][case]") {
  for (const auto& entry : std::filesystem::recursive_directory_iterator(SOURCE_DIR "/cases")) {
    const bool is_case =
        entry.path().extension() == ".yaml" && entry.path().parent_path().filename() != "materials";
    if (!is_case) continue;
    INFO(entry.path());
    const Case whole = read_case(entry.path(), test_library());
    CHECK_NOTHROW(build_model(whole.variants.front().case_file, whole.library));
    const std::string text = read_text_file(entry.path());
    CHECK(text.rfind("# yaml-language-server: $schema=", 0) == 0);
  }
}
