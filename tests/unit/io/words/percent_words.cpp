// SPDX-License-Identifier: AGPL-3.0-or-later
#include <catch2/catch.hpp>

#include "io/words/percent_words.hpp"

using namespace crownproof;

TEST_CASE("Probabilities are said as a person says them", "[percent_words]") {
  CHECK(percent_words(0) == "none");
  CHECK(percent_words(3e-16) == "below 1 in a million");
  CHECK(percent_words(1.2e-5) == "12 in a million");
  CHECK(percent_words(0.00049) == "0.049 %");
  CHECK(percent_words(0.0049) == "0.49 %");
  CHECK(percent_words(0.051) == "5.1 %");
  CHECK(percent_words(0.0999) == "10 %");
  CHECK(percent_words(0.6) == "60 %");
  CHECK(percent_words(0.994) == "99.4 %");
  CHECK(percent_words(0.99999) == "above 99.9 %");
  CHECK(percent_cell(3e-16) == "<0.0001");
  CHECK(percent_cell(1.2e-5) == "0.0012");
  CHECK(percent_cell(0.6) == "60");
  CHECK(percent_cell(1) == ">99.9");
}

TEST_CASE("Factors on a load have no more digits than they are worth", "[percent_words]") {
  CHECK(times_words(0.83) == "0.83");
  CHECK(times_words(1.324) == "1.32");
  CHECK(times_words(13.08) == "13");
  CHECK(times_words(1e30) == "more than 100");
}
