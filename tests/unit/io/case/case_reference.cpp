// SPDX-License-Identifier: AGPL-3.0-or-later
// What is committed under docs must be what the program says.
#include "io/case/case_reference.hpp"

#include <catch2/catch.hpp>

#include "io/case/schema.hpp"
#include "io/text/text_encoding.hpp"

using namespace crownproof;

TEST_CASE("docs/case-reference.md is up to date", "[casefile][case_reference]") {
  INFO("build/release/io/crownproof schema --reference > docs/case-reference.md");
  CHECK(read_text_file(SOURCE_DIR "/docs/case-reference.md") == case_reference());
}

TEST_CASE("the schemas under docs are up to date", "[casefile][schema]") {
  INFO(
      "build/release/io/crownproof schema > docs/case.schema.json; ... schema --materials > "
      "docs/materials.schema.json");
  CHECK(read_text_file(SOURCE_DIR "/docs/case.schema.json") == case_schema());
  CHECK(read_text_file(SOURCE_DIR "/docs/materials.schema.json") == materials_schema());
}
