// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/yaml_text.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;

namespace {

bool alike(const YamlNode& a, const YamlNode& b) {
  if (a.kind != b.kind || a.text != b.text || a.items.size() != b.items.size()) return false;
  for (std::size_t i = 0; i < a.items.size(); ++i)
    if (!alike(a.items[i], b.items[i]) || (!a.keys.empty() && a.keys[i].text != b.keys[i].text)) return false;
  return true;
}

}  // namespace

TEST_CASE("What is written is read back to the same value", "[yaml_text]") {
  const YamlNode node = parse_yaml(
      "materials:\n"
      "  mine:\n"
      "    description: 'it''s: {odd} # not a comment'\n"
      "    number: 1.5\n"
      "    bounds: {low: [1, 2], high: [3, 4]}\n"
      "    list:\n"
      "      - {of: [a, b], source: 'x'}\n"
      "      - {of: [c], source: 'a long source that with its neighbours does not fit on one line of a file, "
      "so it goes on lines of its own'}\n",
      "a.yaml");
  const std::string text = yaml_text(node);
  INFO(text);
  CHECK(alike(parse_yaml(text, "b.yaml"), node));
  CHECK_THAT(text, Catch::Contains("    bounds: {low: [1, 2], high: [3, 4]}\n"));
}
