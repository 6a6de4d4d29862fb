// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/thickness_words.hpp"

#include <catch2/catch.hpp>

#include "mesh/volume/thickness_report.hpp"

using namespace crownproof;

namespace {

ThicknessReport crown() {
  ThicknessReport t;
  t.fossa = {"fossa", {0, 0, 5}, 0.601};
  t.table_thinnest = {"occlusal", {1, 0, 5}, 0.6};
  t.table_thickest = {"occlusal", {2, 0, 5}, 0.702};
  t.functional_cusps = {{"a", {2, 2, 6}, 1.01}, {"b", {-2, 2, 6}, 1.2}};
  t.other_cusps = {{"c", {2, -2, 6}, 0.65}};
  t.landmarks = {{"central_fossa", {0, 0, 5}, 0.601}, {"mesial_fossa", {-3, 0, 5}, 0.6}};
  t.smallest = {"axial", {-3, 0.5, 5}, 0.58};
  return t;
}

}  // namespace

TEST_CASE("Thickness is told at table, fossa, both kinds of cusps, and where it is least",
          "[thickness_words]") {
  CHECK(thickness_words(crown(), 0.6) ==
        "thickness 0.60 mm asked, measured on the occlusal table 0.60 to 0.70 mm, fossa 0.60, functional "
        "cusps 1.01 to "
        "1.20, other cusps 0.65, thinnest 0.58 mm on the axial surface, 0.5 mm from mesial_fossa");
}

TEST_CASE("A flat stack has no table and no cusps, an unmeasured shape no words", "[thickness_words]") {
  ThicknessReport flat;
  flat.fossa = {"fossa", {0, 0, 1}, 1.2};
  flat.smallest = {"", {1, 0, 1}, 1.2};
  CHECK(thickness_words(flat, 1.2) == "thickness 1.20 mm asked, 1.20 mm measured, thinnest 1.20 mm");
  CHECK(thickness_words({}, {}).empty());
}
