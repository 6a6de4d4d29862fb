// SPDX-License-Identifier: AGPL-3.0-or-later

#include <memory>

#include <catch2/catch.hpp>

#include "io/charts/viridis.hpp"
#include "io/pictures/draw_scene.hpp"
#include "io/pictures/pictures.hpp"
#include "io/record/run_record.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/model/model.hpp"
#include "solver/model/specimen_test.hpp"
#include "tests/support/sample_case.hpp"

using namespace crownproof;

namespace {

/// Big-endian number of the PNG header (ISO/IEC 15948: width at byte 16, height at byte 20).
int header_number(const std::string& png, std::size_t at) {
  int value = 0;
  for (std::size_t i = at; i < at + 4; ++i) value = 256 * value + static_cast<unsigned char>(png[i]);
  return value;
}

}  // namespace

// Values of the published table (Smith & van der Walt 2015).
TEST_CASE("The colour map is viridis within 0.02", "[pictures]") {
  CHECK((viridis(0) - Vec3(0.267004, 0.004874, 0.329415)).cwiseAbs().maxCoeff() < 0.02);
  CHECK((viridis(63 / 255.0) - Vec3(0.231674, 0.318106, 0.544834)).cwiseAbs().maxCoeff() < 0.02);
  CHECK((viridis(128 / 255.0) - Vec3(0.127568, 0.566949, 0.550556)).cwiseAbs().maxCoeff() < 0.02);
  CHECK((viridis(192 / 255.0) - Vec3(0.369214, 0.788888, 0.382914)).cwiseAbs().maxCoeff() < 0.02);
  CHECK((viridis(1) - Vec3(0.993248, 0.906157, 0.143936)).cwiseAbs().maxCoeff() < 0.02);
}

TEST_CASE("Ticks of the bar are round and cover it", "[pictures]") {
  CHECK(round_ticks(100) == std::vector<double>{0, 20, 40, 60, 80, 100});
  CHECK(round_ticks(1.2) == std::vector<double>{0, 0.25, 0.5, 0.75, 1.0});
}

TEST_CASE("Pictures of a bite share a scale that holds every value, and mark the limits", "[pictures]") {
  const SampleCase sample = sample_case(2);
  const VariantRecord variant{.model = std::make_shared<const Model>(sample.model),
                              .report = sample.result.report};
  const auto pictures = pictures_of_bite(variant, sample.result.fields, 0);
  REQUIRE(pictures.size() == 3);
  for (const NamedScene& p : pictures) {
    CHECK(p.scene.highest == pictures[0].scene.highest);
    REQUIRE(p.scene.bar_marks.size() == 2);
    CHECK(p.scene.bar_marks[0].value == 250 / 2.0);
    CHECK(p.scene.bar_marks[1].value == 600 / 2.0);
    for (const double value : p.scene.views[0].surfaces[0].surface.values) CHECK(value <= p.scene.highest);
  }
}

TEST_CASE("Pictures are drawn without a display, in one window, the same each time", "[pictures]") {
  const SampleCase sample = sample_case(2);
  const VariantRecord variant{
      .label = "a", .model = std::make_shared<const Model>(sample.model), .report = sample.result.report};
  std::unique_ptr<OffscreenWindow> window;
  try {
    window = std::make_unique<OffscreenWindow>(700, 500);
  } catch (const CannotDraw& error) {
    WARN(error.what());
    return;
  }
  const auto pictures = pictures_of_bite(variant, sample.result.fields, 0);
  const std::string first = draw(*window, pictures[0].scene), section = draw(*window, pictures[1].scene);
  CHECK(first.substr(1, 3) == "PNG");
  CHECK(header_number(first, 16) == 700);
  CHECK(header_number(first, 20) == 500);
  CHECK(first != section);
  CHECK(draw(*window, pictures[0].scene) == first);
  CHECK(window->complaints().empty());

  const std::vector<VariantRecord> both{variant, variant};
  const Scene study = study_scene(
      "study", both,
      {{study_panel(variant, sample.result.fields, 0)}, {study_panel(variant, sample.result.fields, 0)}});
  CHECK(study.views.size() == 2);
  CHECK(draw(*window, study).substr(1, 3) == "PNG");
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
