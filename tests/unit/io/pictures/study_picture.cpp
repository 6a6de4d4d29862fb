// SPDX-License-Identifier: AGPL-3.0-or-later

#include <memory>

#include <catch2/catch.hpp>

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
  CHECK_FALSE(alike.scale.marks.empty());
  CHECK(alike.views[0].caption.starts_with("thickness 1 mm\ncrown A\nsafety factor "));
  CHECK((alike.scale.clipped || alike.scale.highest >= panels[0][0].highest));

  Model weaker = *variants[1].model;
  for (RegionMaterial& m : weaker.materials)
    if (m.material.strength) m.material.strength->in_layer.characteristic_MPa /= 2;
  variants[1].model = std::make_shared<const Model>(weaker);
  const Scene shares = study_scene("study", variants, panels);
  CHECK(shares.scale.title == "Share of the strength used, % (of each variant's own)");
  CHECK(shares.scale.marks.size() == 1);
  for (VariantRecord& v : variants) v.pictures.quantity = PictureQuantity::tension;
  const Scene tensions = study_scene("study", variants, panels);
  CHECK(tensions.scale.marks.empty());
  CHECK_THAT(tensions.views[1].caption, Contains("crown B") && Contains("limit"));
  CHECK(tensions.views[0].caption != tensions.views[1].caption);
}

TEST_CASE("A study of many variants is drawn as far as it can be read", "[study_picture]") {
  const SampleCase sample = sample_case(2);
  const std::vector<VariantRecord> variants(30, variant_of(sample, "x"));
  const std::vector<std::vector<StudyPanel>> panels(30, {study_panel(variants[0], sample.result.fields, 0)});
  const Scene scene = study_scene("study", variants, panels);
  CHECK(scene.views.size() == 18);
  CHECK_THAT(scene.note, Contains("18 of 30"));
}
