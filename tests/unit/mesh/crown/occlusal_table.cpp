// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/occlusal_table.hpp"

#include <catch2/catch.hpp>

#include "mesh/crown/crown_shape.hpp"

using namespace crownproof;

TEST_CASE("the occlusal table lies between cusp tips and pits", "[occlusal_table]") {
  const LandmarkKind tip = LandmarkKind::other_cusp_tip;
  const OcclusalTable table({{"a_tip", {-1, -1, 5}, Vec3::UnitZ(), tip},
                             {"b_tip", {1, -1, 5}, Vec3::UnitZ(), tip},
                             {"c_tip", {0, 2, 6}, Vec3::UnitZ(), tip},
                             {"distal_fossa", {2, 0, 4}, Vec3::UnitZ(), LandmarkKind::fossa},
                             {"distal_marginal_ridge", {9, 0, 4}, Vec3::UnitZ()}});
  CHECK(table.contains({0, 0, 0}));
  CHECK(table.contains({1.9, 0, 0}));
  CHECK(table.contains({0, 2, 0}));
  CHECK_FALSE(table.contains({2.1, 0, 0}));
  CHECK_FALSE(table.contains({-0.9, 1, 0}));
}

TEST_CASE("a crown's table holds its fossa and ends at its tips", "[occlusal_table]") {
  const Domain d = crown_shape(CrownParameters{});
  REQUIRE(d.on_occlusal_table);
  CHECK(d.on_occlusal_table(*d.fossa));
  for (const Landmark& mark : d.landmarks) {
    if (mark.kind == LandmarkKind::place || mark.kind == LandmarkKind::fossa) continue;
    CHECK(d.on_occlusal_table(0.98 * mark.point + 0.02 * *d.fossa));
    CHECK_FALSE(d.on_occlusal_table(1.02 * mark.point - 0.02 * *d.fossa));
  }
}
