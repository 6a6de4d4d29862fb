// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench/ceramic_classes.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;

TEST_CASE("ceramic classes are shown with their edition", "[ceramic_classes]") {
  CHECK_THAT(class_sentence(850), Catch::Contains("class 5") && Catch::Contains("ISO 6872:2015") &&
                                      Catch::Contains("checked against the current text"));
  CHECK_THAT(class_sentence(400), Catch::Contains("class 3 minimum of 300 MPa"));
  CHECK_THAT(class_sentence(20), Catch::Contains("below every class"));
}
