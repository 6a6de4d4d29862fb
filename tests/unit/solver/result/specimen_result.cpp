// SPDX-License-Identifier: AGPL-3.0-or-later
// Bench specimens as cases, run by the same flow as a crown. References: beam theory, Seewald 1927 (3-point
// bar), Davies 1973 (effective volume of bars).

#include <memory>

#include <catch2/catch.hpp>

#include "io/case/case.hpp"
#include "io/record/run_record.hpp"
#include "io/tables/tables.hpp"
#include "io/words/summary.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/model/model.hpp"
#include "solver/model/specimen_test.hpp"
#include "solver/result/result.hpp"
#include "solver/result/specimen_result.hpp"
#include "solver/simulate.hpp"

using namespace crownproof;
using Catch::Contains;

namespace {

std::string bar(const std::string& test, const std::string& more = "") {
  const std::string sizes = "{test: " + test + ", width_mm: 4, thickness_mm: 3, span_mm: 40" +
                            (test == "4_point_bending" ? ", inner_span_mm: 20" : "");
  return "crownproof: 1\nspecimen: " + sizes +
         ", load_N: 500, material: {youngs_modulus_GPa: 210, poisson_ratio: 0.3, strength: "
         "{characteristic_MPa: 500, weibull_modulus: 10, bench_test: " +
         sizes + "}}}" + more + "}\n";
}

Model model_of(const std::string& text) {
  const Case whole = parse_case(text, "specimen.yaml", builtin_materials());
  return build_model(whole.variants[0].case_file, whole.library);
}

}  // namespace

TEST_CASE("a bar measured on itself breaks at its own strength", "[specimen_result][casefile]") {
  const Result result = simulate(model_of(bar("4_point_bending")));
  const SpecimenResult& told = result.report.specimen.value();
  CHECK(told.formula_MPa == Approx(416.667).epsilon(1e-5));
  CHECK(told.field_MPa == Approx(told.formula_MPa).epsilon(0.005));
  CHECK(told.sizes.value().formula_volume_mm3 == Approx(240.0 * 12 / 11 / 22).epsilon(1e-9));
  CHECK(told.sizes->field_volume_mm3 == Approx(told.sizes->formula_volume_mm3).epsilon(0.03));
  CHECK(told.sizes->field_area_mm2 == Approx(told.sizes->formula_area_mm2).epsilon(0.03));
  // 500 MPa of this very bar is reached at 600 N.
  CHECK(result.report.bites[0].fracture.loads.at_63_percent_N.value() == Approx(600).epsilon(0.005));
}

TEST_CASE("the probability of fracture of a bar stays when its mesh is refined", "[specimen_result]") {
  Model model = model_of(bar("4_point_bending"));
  const double coarse = simulate(model).report.bites[0].fracture.now.probability;
  SpecimenTest finer = *model.specimen;
  finer.layers *= 2;
  model.specimen = std::make_shared<const SpecimenTest>(finer);
  const double fine = simulate(model).report.bites[0].fracture.now.probability;
  CHECK(fine == Approx(coarse).epsilon(0.01));
}

TEST_CASE("formula and field stand side by side in words and tables", "[specimen_result]") {
  const Model model = model_of(bar("3_point_bending"));
  const std::vector<VariantRecord> all{
      {.model = std::make_shared<const Model>(model), .report = simulate(model).report}};
  const std::string words = terminal_summary("bar", all, {}, false);
  CHECK_THAT(words, Contains("The standard's formula gives 833.3 MPa"));
  CHECK_THAT(words, Contains("overstates the stress below"));
  CHECK_THAT(summary_csv(all), Contains("specimen_field_MPa") && Contains("833.3333"));
  CHECK_THAT(summary_json("bar", all), Contains("\"formula_MPa\": 833.3"));
  CHECK(all[0].report.specimen->field_MPa == Approx(0.9869 * 833.333).epsilon(0.005));  // Seewald
}

TEST_CASE("every test runs as a case", "[specimen_result]") {
  const std::string material =
      "material: {youngs_modulus_GPa: 210, poisson_ratio: 0.3, strength: {characteristic_MPa: 900}}";
  const auto field = [&](const std::string& sizes) {
    const Model model = model_of("crownproof: 1\nspecimen: {" + sizes + ", " + material + "}\n");
    const SpecimenResult told = simulate(model).report.specimen.value();
    return told.field_MPa / told.formula_MPa;
  };
  const std::string disc = ", diameter_mm: 14, thickness_mm: 1.2, support_diameter_mm: 10, load_N: 500";
  CHECK(field("test: ring_on_ring, loading_diameter_mm: 5" + disc) == Approx(1).epsilon(0.02));
  CHECK(field("test: piston_on_three_balls, loading_diameter_mm: 1.4" + disc) == Approx(1.014).epsilon(0.03));
  const std::string block = ", width_mm: 4, thickness_mm: 5, length_mm: 8, load_N: 1000";
  CHECK(field("test: compression" + block) == Approx(1).epsilon(1e-6));
  CHECK(field("test: tension" + block) == Approx(1).epsilon(1e-6));
}

TEST_CASE("keys that mean nothing for a specimen are refused", "[specimen_result][casefile]") {
  CHECK_THROWS_WITH(model_of(bar("3_point_bending") + "build: {tilt_deg: 30}\n"),
                    Contains("specimen.layer_normal"));
  CHECK_THROWS_WITH(model_of("crownproof: 1\nspecimen: {test: 3_point_bending, width_mm: 4, thickness_mm: 3, "
                             "load_N: 1, material: zirconia_3y_milled}\n"),
                    Contains("needs its span"));
}
