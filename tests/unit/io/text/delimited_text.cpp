// SPDX-License-Identifier: AGPL-3.0-or-later
// Lines and cells after RFC 4180, sections 2.1 to 2.7, and what spreadsheets make of it.

#include <catch2/catch.hpp>

#include "io/text/delimited_text.hpp"

using namespace crownproof;

namespace {

std::vector<std::string> texts(const TableLine& line) {
  std::vector<std::string> all;
  for (const TableCell& cell : line.cells) all.push_back(cell.text);
  return all;
}

}  // namespace

TEST_CASE("cells in quotation marks hold separators, line ends and quotation marks (RFC 4180)", "[text]") {
  const DelimitedText table = split_table("\"aaa\",\"b \nb\",\"c\"\"c\"\nzzz,\"y,y\",xxx\n", "t.csv", ',');
  REQUIRE(table.lines.size() == 2);
  CHECK(texts(table.lines[0]) == std::vector<std::string>{"aaa", "b b", "c\"c"});
  CHECK(texts(table.lines[1]) == std::vector<std::string>{"zzz", "y,y", "xxx"});
  CHECK(table.lines[1].place.line == 3);
  CHECK_FALSE(table.open_quote);
}

TEST_CASE("cells know their place, blanks are made plain, empty lines are left out", "[text]") {
  const DelimitedText table =
      split_table("a;b\n;\n\n \xC3\xA9t\xC3\xA9 ;x\xC2\xA0y\xC2\xA0\n# no \"end\n", "t.csv", ';');
  REQUIRE(table.lines.size() == 3);
  CHECK(texts(table.lines[1]) == std::vector<std::string>{"\xC3\xA9t\xC3\xA9", "x y"});
  CHECK(table.lines[1].cells[1].odd_blanks);
  CHECK(table.lines[1].cells[1].place.text() == "t.csv:4:7");  // characters, not bytes
  CHECK(table.lines[2].begins_with_hash);
  CHECK_FALSE(table.open_quote);
}

TEST_CASE("a quotation mark that is never closed is told, one inside a cell is a letter", "[text]") {
  CHECK(split_table("a,b\n1,\"x\n2,y\n", "t.csv", ',').open_quote->text() == "t.csv:2:3");
  CHECK(texts(split_table("5\" disc,b\n", "t.csv", ',').lines[0])[0] == "5\" disc");
  CHECK(split_table("a\tb\n1\t\t\n", "t.csv", '\t').lines[1].cells.size() == 3);
}
