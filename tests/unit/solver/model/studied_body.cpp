// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"

using namespace crownproof;
using Catch::Matchers::Contains;

TEST_CASE("A body under study without strength is refused in words", "[studied_body]") {
  Model model;
  CHECK_THROWS_WITH(material_under_study(model), Contains("no material"));
  RegionMaterial ceramic;
  ceramic.region = "crown";
  ceramic.material.name = "test ceramic";
  ceramic.material.strength = MaterialStrength{{600, 10}, std::nullopt};
  model.materials = {ceramic};
  CHECK(material_under_study(model).region == "crown");
  model.materials[0].material.strength.reset();
  CHECK_THROWS_WITH(material_under_study(model), Contains("no strength"));
}
