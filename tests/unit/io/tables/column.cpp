// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/tables/column.hpp"

#include <set>

#include <catch2/catch.hpp>

#include "io/text/text_encoding.hpp"

using namespace crownproof;

TEST_CASE("docs/results.md lists the columns of summary.csv as they are declared", "[column]") {
  INFO("build/release/io/crownproof schema --columns");
  CHECK_THAT(read_text_file(SOURCE_DIR "/docs/results.md"), Catch::Contains(summary_columns_page()));
}

TEST_CASE("Every column has a name of its own, a meaning, and its unit at the end", "[column]") {
  std::set<std::string> names;
  for (const SummaryColumn& column : summary_columns()) {
    INFO(column.name);
    CHECK(names.insert(column.name).second);
    CHECK_FALSE(column.meaning.empty());
    CHECK(column.name.find("MPa_") == std::string::npos);
    CHECK(column.cell != nullptr);
  }
}
