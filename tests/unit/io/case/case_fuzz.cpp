// SPDX-License-Identifier: AGPL-3.0-or-later
// Mutated case files: the reader accepts them or says what is wrong; it never crashes, hangs or reports an
// internal error. Fixed seed.
#include <array>
#include <catch2/catch.hpp>
#include <random>

#include "mesh/geometry_error.hpp"
#include "tests/support/case_text.hpp"

using namespace crownproof;

namespace {

const std::array<std::string, 24> bricks{"\n",  "  ",  ":",    ": ",    "- ", "[",      "]",        "{",
                                         "}",   "\"",  "'",    "&a ",   "*a", "!!int ", "<<: ",     "#",
                                         "|\n", ">\n", "0x10", "1e400", "-",  "\t",     "\xC3\xA4", "~"};

std::string mutated(std::string text, std::mt19937& random) {
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  const std::size_t n_changes = 1 + below(4);
  for (std::size_t i = 0; i < n_changes; ++i) {
    const std::size_t at = below(text.size());
    switch (below(5)) {
      case 0:
        text.erase(at, 1 + below(8));
        break;
      case 1:
        text.insert(at, bricks[below(bricks.size())]);
        break;
      case 2:
        text[at] = static_cast<char>(random() % 256);
        break;
      case 3:
        text.insert(at, text.substr(below(text.size()), 1 + below(40)));
        break;
      default:
        text.resize(std::max<std::size_t>(at, 1));
        break;
    }
    if (text.empty()) text.push_back('a');
  }
  return text;
}

}  // namespace

TEST_CASE("mutated case files end in a case or in a sentence with a place", "[casefile][fuzz]") {
  std::mt19937 random(20240611);
  const std::string seed =
      small_case().append("study: {vary: {flat_stack.ceramic_thickness_mm: [0.6, 1.5]}}\n");
  int accepted = 0, refused = 0;
  for (int i = 0; i < 4000; ++i) {
    const std::string text = mutated(seed, random);
    try {
      read_and_build(text);
      ++accepted;
    } catch (const UserError& error) {
      ++refused;
      CAPTURE(text, error.what());
      REQUIRE(std::string(error.what()).rfind("case.yaml", 0) == 0);
    } catch (const GeometryError&) {
      ++refused;
    }
  }
  // Most mutations hurt; some fall into the title or a space.
  CHECK(refused > 2000);
  CHECK(accepted > 10);
}
