// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/text_encoding.hpp"

#include <catch2/catch.hpp>
#include <fstream>

#include "io/text/user_error.hpp"
#include "tests/support/scratch_folder.hpp"

using namespace crownproof;

namespace {

std::string message(const std::string& text) {
  try {
    checked_utf8(text, "f.yaml");
  } catch (const UserError& error) {
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("well-formed UTF-8 passes unchanged", "[casefile][text_encoding]") {
  const std::string text = "Zahn: M\xC3\xBCller \xE2\x82\xAC \xF0\x9F\xA6\xB7\n";
  CHECK(checked_utf8(text, "f.yaml") == text);
  CHECK(checked_utf8("\xEF\xBB\xBF" + text, "f.yaml") == text);
}

TEST_CASE("ill-formed UTF-8 is refused at its place", "[casefile][text_encoding]") {
  // Latin-1, a lone tail, overlong '/', a surrogate, above U+10FFFF, a cut sequence: Unicode standard 3.9,
  // D92.
  for (const char* bad : {"\xFC", "\x80", "\xC0\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE2\x82"}) {
    CHECK(message(std::string("a: 1\nb: x") + bad).rfind("f.yaml:2:5: this character is not UTF-8", 0) == 0);
  }
  CHECK(message(std::string("a\0b", 3)).rfind("f.yaml:1:2: there is an invisible control character", 0) == 0);
  CHECK(message("\xFF\xFE"
                "a")
            .find("UTF-16") != std::string::npos);
}

TEST_CASE("files that are not there, are folders, or are too large", "[casefile][text_encoding]") {
  const ScratchFolder scratch;
  const auto missing = scratch.path() / "missing.yaml";
  CHECK_THROWS_WITH(read_text_file(missing), Catch::StartsWith(missing.string() + ": there is no such file"));
  CHECK_THROWS_WITH(read_text_file(scratch.path()), Catch::Contains("this is a folder"));
  const auto large = scratch.path() / "large.yaml";
  std::ofstream(large) << std::string(largest_text_file + 1, 'a');
  CHECK_THROWS_WITH(read_text_file(large), Catch::Contains("larger than 1 MB"));
}
