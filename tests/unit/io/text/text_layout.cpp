// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/text_layout.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;

TEST_CASE("Text is laid out by characters, not bytes", "[text_layout]") {
  CHECK(display_width("Z\xC3\xA4hne") == 5);
  CHECK(padded("Z\xC3\xA4hne", 7) == "Z\xC3\xA4hne  ");
  CHECK(padded("Z\xC3\xA4hneputzen", 6) == "Z\xC3\xA4hn..");
  CHECK(wrapped("one two three", 9, "a: ", "   ") == "a: one\n   two\n   three\n");
  CHECK(wrapped("", 9, "a: ", "") == "a: \n");
  CHECK(grouped(7) == "7");
  CHECK(grouped(152340) == "152 340");
  CHECK(grouped(-1234567) == "-1 234 567");
}
