// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/same_case.hpp"

#include <catch2/catch.hpp>

#include "tests/support/case_text.hpp"

using namespace crownproof;

namespace {

std::vector<std::size_t> same_in(const std::string& crown, const std::string& vary) {
  const std::string text =
      "crownproof: 1\n"
      "crown: {tooth: lower_first_molar, occlusal_thickness_mm: 1.0}\n"
      "materials: {crown: " +
      crown +
      ", cement: resin_cement, die: dentin}\n"
      "bites: [{name: clench, contacts: [{at: central_fossa, force_N: 300}]}]\n"
      "study: {vary: {" +
      vary + "}}\n";
  return first_of_same(parse_case(text, "case.yaml", builtin_materials()));
}

using Positions = std::vector<std::size_t>;

}  // namespace

TEST_CASE("The side to which level layers lean changes nothing", "[same_case]") {
  CHECK(same_in("zirconia_3y_printed", "build.tilt_deg: [0, 45], build.toward: [buccal, mesial, distal]") ==
        Positions{0, 0, 0, 3, 4, 5});
}

TEST_CASE("A material without directions knows no build direction", "[same_case]") {
  CHECK(same_in("zirconia_3y_milled", "build.tilt_deg: [0, 45, 90]") == Positions{0, 0, 0});
  CHECK(same_in("zirconia_3y_printed", "build.tilt_deg: [0, 45, 90]") == Positions{0, 1, 2});
  CHECK(same_in("zirconia_3y_milled", "build.tilt_deg: [0, 45], materials.die: [dentin, pmma_die]") ==
        Positions{0, 1, 0, 1});
}

TEST_CASE("Other titles and pictures are no other case, other strengths are", "[same_case]") {
  CHECK(same_in("zirconia_3y_milled", "pictures.dpi: [100, 300]") == Positions{0, 0});
  CHECK(same_in("zirconia_3y_milled", "strength.years: [0, 1]") == Positions{0, 1});
}
