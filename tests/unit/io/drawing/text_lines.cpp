// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/text_lines.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;

namespace {

/// Every letter is one point wide.
double letters(const std::string& text, const TextLook&) {
  return static_cast<double>(text.size());
}

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("Text breaks at spaces where a line is full, and where it is told to", "[text_lines]") {
  CHECK(text_lines("one two three", {}, 8, letters) == Lines{"one two", "three"});
  CHECK(text_lines("one\ntwo", {}, 80, letters) == Lines{"one", "two"});
  CHECK(text_lines("zirconia_3y_printed", {}, 14, letters) == Lines{"zirconia_3y_", "printed"});
  CHECK(text_lines("a unbreakable b", {}, 4, letters) == Lines{"a", "unbr", "eaka", "ble", "b"});
  CHECK(text_lines("\u00b5\u00b5\u00b5", {}, 5, letters) == Lines{"\u00b5\u00b5", "\u00b5"});
}

TEST_CASE("A number keeps its unit beside it", "[text_lines]") {
  const Lines lines = text_lines("a wall of 0.8 mm", {}, 13, letters);
  CHECK(lines == Lines{"a wall of", "0.8\u00a0mm"});
  CHECK(text_lines("3 minutes", {}, 7, letters) == Lines{"3", "minutes"});
}
