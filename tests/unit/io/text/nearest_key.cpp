// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/nearest_key.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;

TEST_CASE("edit distance counts letters and swaps", "[casefile][nearest_key]") {
  CHECK(edit_distance("kitten", "sitting") == 3);  // the textbook pair
  CHECK(edit_distance("", "abc") == 3);
  CHECK(edit_distance("buccal", "bucacl") == 1);
  CHECK(edit_distance("same", "same") == 0);
}

TEST_CASE("the nearest key is found, or none", "[casefile][nearest_key]") {
  const std::vector<std::string> known{"axial_thickness_mm", "occlusal_thickness_mm", "force_N", "radius_mm"};
  CHECK(nearest_key("axial_thicknes_mm", known) == "axial_thickness_mm");
  CHECK(nearest_key("force", known) == "force_N");
  CHECK(nearest_key("rdaius_mm", known) == "radius_mm");
  CHECK(nearest_key("colour", known) == "");
  CHECK(nearest_key("", known) == "");
  CHECK(nearest_key(std::string(100000, 'x'), known) == "");
}

TEST_CASE("an unknown word is answered with what to write", "[casefile][nearest_key]") {
  const std::vector<std::string> known{"thickness_mm", "form"};
  CHECK(unknown_word("key", "thicknes_mm", " in 'crown'", known) ==
        "unknown key 'thicknes_mm' in 'crown'; did you mean 'thickness_mm'? Allowed: thickness_mm, form.");
  CHECK(unknown_word("key", "thickness", " in 'crown'", known) ==
        "unknown key 'thickness' in 'crown'; units are part of the key: write thickness_mm. Allowed: "
        "thickness_mm, "
        "form.");
  CHECK(unknown_word("key", std::string(5000, 'a'), "", known).size() < 200);
}
