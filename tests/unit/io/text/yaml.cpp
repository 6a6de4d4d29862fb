// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/yaml.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

using namespace crownproof;

namespace {

std::string message(const std::string& text) {
  try {
    parse_yaml(text, "f.yaml");
  } catch (const UserError& error) {
    return error.what();
  }
  return "";
}

bool starts(const std::string& text, const std::string& start) {
  return text.rfind(start, 0) == 0;
}

}  // namespace

TEST_CASE("the tree knows where keys and values stand", "[casefile][yaml]") {
  const YamlNode root = parse_yaml("a: 1\nb:\n  - {c: x}\n  - \"2\"\nd:\n", "f.yaml");
  REQUIRE(root.kind == YamlKind::map);
  REQUIRE(root.keys.size() == 3);
  CHECK(root.keys[1].place.text() == "f.yaml:2:1");
  CHECK(root.find("a")->place.text() == "f.yaml:1:4");
  const YamlNode& list = *root.find("b");
  REQUIRE(list.items.size() == 2);
  CHECK(list.items[0].find("c")->place.text() == "f.yaml:3:9");
  CHECK_FALSE(list.items[0].find("c")->quoted);
  CHECK(list.items[1].quoted);
  CHECK(root.find("d")->kind == YamlKind::nothing);
  CHECK(root.find("d")->place.text() == "f.yaml:5:1");
  CHECK(root.find("e") == nullptr);
}

TEST_CASE("a byte order mark is tolerated and does not shift columns", "[casefile][yaml]") {
  CHECK(parse_yaml("\xEF\xBB\xBF"
                   "a: 1\n",
                   "f.yaml")
            .find("a")
            ->place.text() == "f.yaml:1:4");
}

TEST_CASE("columns count characters, not bytes", "[casefile][yaml]") {
  const YamlNode root = parse_yaml("{Z\xC3\xA4hne: 1, b: 2}\n", "f.yaml");
  CHECK(root.keys[1].place.text() == "f.yaml:1:12");
}

TEST_CASE("what YAML allows and a case file must not", "[casefile][yaml]") {
  CHECK(starts(message("a: 1\na: 2\n"), "f.yaml:2:1: the key 'a' is given twice; the first time on line 1."));
  CHECK(starts(message("a: &x 1\n"), "f.yaml:1:4: anchors"));
  CHECK(starts(message("a: [1]\nb: *x\n"), "f.yaml:2:"));
  CHECK(starts(message("a: &x {b: 1}\nc: *x\n"), "f.yaml:1:4: anchors"));
  CHECK(starts(message("<<: {a: 1}\n"), "f.yaml:1:1: merge keys"));
  CHECK(starts(message("a: !!float 1\n"), "f.yaml:1:4: tags"));
  CHECK(starts(message("a: !mine {b: 1}\n"), "f.yaml:1:4: tags"));
  CHECK(starts(message("a: 1\n---\nb: 2\n"), "f.yaml:3:1: the file holds a second document"));
  CHECK(starts(message("[a, b]: 1\n"), "f.yaml:1:"));
  CHECK(starts(message("? {a: 1}\n: 2\n"), "f.yaml:1:3: a key must be a plain word"));
  CHECK(starts(message(": 2\n"), "f.yaml:1:"));
}

TEST_CASE("broken YAML gets a place and a likely cause", "[casefile][yaml]") {
  CHECK(starts(message("a: [1, 2\nb: 3\n"), "f.yaml:"));
  CHECK(message("a:\n\tb: 1\n").find("Indent with spaces, not with tabs.") != std::string::npos);
  CHECK(starts(message("a: \"x\n"), "f.yaml:1:4: the quote that opens here is never closed."));
  CHECK(starts(message("a: 'it''s\n"), "f.yaml:1:4: the quote that opens here is never closed."));
  CHECK(message("a: 'it''s'\nb: \"\\\"\"\nc: |\n  \"\n").empty());
  CHECK(message("").find("empty") != std::string::npos);
  CHECK(message("# only a comment\n").find("empty") != std::string::npos);
}

TEST_CASE("deep nesting ends in a message, not in a crash", "[casefile][yaml]") {
  for (const char* brick : {"[", "{a: ", "- ", "? "}) {
    std::string text;
    for (int i = 0; i < 20000; ++i) text += brick;
    INFO(brick);
    CHECK(starts(message(text), "f.yaml:1:"));
  }
  std::string indented;
  for (int i = 0; i < 300; ++i) indented += std::string(i, ' ') + "a:\n";
  CHECK(message(indented).find("nested deeper") != std::string::npos);
}

TEST_CASE("more keys than any case has are refused before they cost time", "[casefile][yaml]") {
  std::string text;
  for (int i = 0; i < 100000; ++i) text += fmt::format("k{}: 1\n", i);
  CHECK(starts(message(text), "f.yaml:2001:1: more than 2000 keys"));
}
