// SPDX-License-Identifier: AGPL-3.0-or-later

#include <memory>

#include <catch2/catch.hpp>

#include "io/pictures/draw_scene.hpp"
#include "io/pictures/pictures.hpp"
#include "io/pictures/study_picture.hpp"
#include "io/record/run_record.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "tests/support/sample_case.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

namespace {

VariantRecord variant_of(const SampleCase& sample, const std::string& label) {
  VariantRecord v{.model = std::make_shared<const Model>(sample.model), .report = sample.result.report};
  v.label = label;
  return v;
}

}  // namespace

TEST_CASE("Panels of a study carry what was varied, the outcome, and limits that differ", "[study_picture]") {
  const SampleCase sample = sample_case(2);
  std::vector<VariantRecord> variants{variant_of(sample, "thickness 1 mm, crown A"),
                                      variant_of(sample, "thickness 1 mm, crown B")};
  const std::vector<std::vector<StudyPanel>> panels{{study_panel(variants[0], sample.result.fields, 0)},
                                                    {study_panel(variants[1], sample.result.fields, 0)}};
  const Scene alike = study_scene("study", variants, panels);
  REQUIRE(alike.views.size() == 2);
  CHECK_FALSE(alike.bar_marks.empty());
  CHECK(alike.views[0].caption.starts_with("thickness 1 mm\ncrown A\nsafety factor "));
  CHECK(alike.highest >= panels[0][0].highest_MPa);

  Model weaker = *variants[1].model;
  for (RegionMaterial& m : weaker.materials)
    if (m.material.strength) m.material.strength->in_layer.characteristic_MPa /= 2;
  variants[1].model = std::make_shared<const Model>(weaker);
  const Scene differing = study_scene("study", variants, panels);
  CHECK(differing.bar_marks.empty());
  CHECK_THAT(differing.views[1].caption, Contains("crown B") && Contains("limit"));
  CHECK(differing.views[0].caption != differing.views[1].caption);
}

TEST_CASE("A study of many variants is drawn as far as it can be read", "[study_picture]") {
  const SampleCase sample = sample_case(2);
  const std::vector<VariantRecord> variants(30, variant_of(sample, "x"));
  const std::vector<std::vector<StudyPanel>> panels(30, {study_panel(variants[0], sample.result.fields, 0)});
  const Scene scene = study_scene("study", variants, panels);
  CHECK(scene.views.size() == 24);
  CHECK_THAT(scene.note, Contains("24 of 30"));
}

TEST_CASE("Rows of panels are filled evenly", "[study_picture]") {
  CHECK(grid_of(1).columns == 1);
  CHECK(grid_of(3).columns == 3);
  CHECK(grid_of(5).columns == 3);
  CHECK(grid_of(6).columns == 3);
  CHECK(grid_of(9).columns == 3);
  CHECK(grid_of(24).columns == 4);
  CHECK(grid_of(24).rows == 6);
  CHECK(grid_of(5).rows == 2);
}
