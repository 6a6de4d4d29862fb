// SPDX-License-Identifier: AGPL-3.0-or-later

#include <memory>

#include <catch2/catch.hpp>

#include "io/charts/viridis.hpp"
#include "io/drawing/cannot_draw.hpp"
#include "io/drawing/draw_scene.hpp"
#include "io/pictures/pictures.hpp"
#include "io/record/run_record.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/model/model.hpp"
#include "solver/model/specimen_test.hpp"
#include "solver/strength/zone_peak.hpp"
#include "tests/support/sample_case.hpp"

using namespace crownproof;

// Values of the published table (Smith & van der Walt 2015).
TEST_CASE("The colour map is viridis within 0.02", "[pictures]") {
  CHECK((viridis(0) - Vec3(0.267004, 0.004874, 0.329415)).cwiseAbs().maxCoeff() < 0.02);
  CHECK((viridis(63 / 255.0) - Vec3(0.231674, 0.318106, 0.544834)).cwiseAbs().maxCoeff() < 0.02);
  CHECK((viridis(128 / 255.0) - Vec3(0.127568, 0.566949, 0.550556)).cwiseAbs().maxCoeff() < 0.02);
  CHECK((viridis(192 / 255.0) - Vec3(0.369214, 0.788888, 0.382914)).cwiseAbs().maxCoeff() < 0.02);
  CHECK((viridis(1) - Vec3(0.993248, 0.906157, 0.143936)).cwiseAbs().maxCoeff() < 0.02);
}

TEST_CASE("Pictures of a bite share a scale that holds every value, and mark the limits", "[pictures]") {
  const SampleCase sample = sample_case(2);
  const VariantRecord variant{.model = std::make_shared<const Model>(sample.model),
                              .report = sample.result.report};
  const auto pictures = pictures_of_bite(variant, sample.result.fields, 0);
  REQUIRE(pictures.size() == 3);
  for (const NamedScene& p : pictures) {
    CHECK(p.scene.scale.highest == pictures[0].scene.scale.highest);
    REQUIRE(p.scene.scale.marks.size() == 1);
    CHECK(p.scene.scale.marks[0].value == 100 / 2.0);
    for (const double value : p.scene.views[0].surfaces[0].surface.values) {
      CHECK(value >= 0);
      CHECK((p.scene.scale.clipped || value <= p.scene.scale.highest));
    }
  }
}

TEST_CASE("The share of the strength is the tension that decides over its strength", "[pictures]") {
  const SampleCase sample = sample_case(2);
  VariantRecord variant{.model = std::make_shared<const Model>(sample.model), .report = sample.result.report};
  const auto section_mark = [&] {
    return pictures_of_bite(variant, sample.result.fields, 0)[1].scene.views[0].marks.at(0);
  };
  const ZonePeak& governing = sample.result.report.bites[0].tension.governing;
  const double share = 100 * governing.tension_MPa / governing.strength_MPa;
  CHECK(std::stod(section_mark().text) == Approx(share).margin(0.5));
  CHECK(section_mark().text.ends_with(" %"));
  variant.pictures.quantity = PictureQuantity::tension;
  CHECK(std::stod(section_mark().text) == Approx(governing.tension_MPa).margin(0.5));
  CHECK(section_mark().text.ends_with(" MPa"));
}

TEST_CASE("Pictures are drawn without a display, the same each time", "[pictures]") {
  const SampleCase sample = sample_case(2);
  const VariantRecord variant{
      .label = "a", .model = std::make_shared<const Model>(sample.model), .report = sample.result.report};
  const auto pictures = pictures_of_bite(variant, sample.result.fields, 0);
  const PictureWishes wishes{.dpi = 100};
  Painter painter;
  std::string first;
  try {
    first = painter.draw(pictures[0].scene, wishes);
  } catch (const CannotDraw& error) {
    WARN(error.what());
    return;
  }
  const std::string section = painter.draw(pictures[1].scene, wishes);
  CHECK(first.substr(1, 3) == "PNG");
  CHECK(first != section);
  CHECK(painter.draw(pictures[0].scene, wishes) == first);
  for (const PictureFormat format : {PictureFormat::svg, PictureFormat::pdf})
    CHECK(painter.draw(pictures[0].scene, {.format = format, .dpi = 100}).size() > 10000);
  CHECK(painter.complaints().empty());

  const std::vector<VariantRecord> both{variant, variant};
  const Scene study = study_scene(
      "study", both,
      {{study_panel(variant, sample.result.fields, 0)}, {study_panel(variant, sample.result.fields, 0)}});
  CHECK(study.views.size() == 2);
  CHECK(painter.draw(study, wishes).substr(1, 3) == "PNG");
}

TEST_CASE("A specimen is drawn whole, with words of its test", "[pictures]") {
  SampleCase sample = sample_case(2);
  sample.model.specimen =
      std::make_shared<const SpecimenTest>(SpecimenTest{.specimen = {.test = BenchTest::tension}});
  const VariantRecord part{.model = std::make_shared<const Model>(sample.model),
                           .report = sample.result.report};
  Fields quarter = sample.result.fields;
  quarter.copies = 4;
  const auto pictures = pictures_of_bite(part, quarter, 0);
  REQUIRE(pictures.size() == 3);
  CHECK(pictures[0].name == "loaded_side");
  CHECK(pictures[2].name == "tensile_side");
  CHECK_THAT(pictures[0].scene.subtitle, Catch::StartsWith("test clench"));
  CHECK(pictures[0].scene.views[0].surfaces[0].surface.triangles.size() ==
        4 * pictures_of_bite(part, sample.result.fields, 0)[0]
                .scene.views[0]
                .surfaces[0]
                .surface.triangles.size());
}
