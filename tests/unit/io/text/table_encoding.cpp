// SPDX-License-Identifier: AGPL-3.0-or-later
// Encodings of exported tables; the bytes are those of the Unicode standard and of Windows code page 1252.

#include <catch2/catch.hpp>

#include "io/text/table_encoding.hpp"
#include "io/text/user_error.hpp"

using namespace crownproof;

TEST_CASE("UTF-8, UTF-16 and Windows-1252 become the same text with plain line ends", "[text]") {
  const std::string text = "\xC3\xA9,1\n2\n";
  CHECK(decoded_table("\xEF\xBB\xBF" + text, "t.csv").text == text);
  CHECK(decoded_table("\xC3\xA9,1\r\n2\r", "t.csv").text == text);
  CHECK(decoded_table(text, "t.csv").remark.empty());
  const std::string little(
      "\xE9\0,\0"
      "1\0\n\0"
      "2\0\n\0",
      12),
      big("\0\xE9\0,\0"
          "1\0\n\0"
          "2\0\n",
          12);
  for (const std::string& bytes : {"\xFF\xFE" + little, little, "\xFE\xFF" + big, big}) {
    const DecodedText decoded = decoded_table(bytes, "t.csv");
    CHECK(decoded.text == text);
    CHECK_THAT(decoded.remark, Catch::Contains("UTF-16"));
  }
  const DecodedText windows = decoded_table("\xE9,1\n2\n", "t.csv");
  CHECK(windows.text == text);
  CHECK_THAT(windows.remark, Catch::Contains("Windows-1252"));
}

TEST_CASE("files that hold no text are named", "[text]") {
  for (const auto& [bytes, kind] : {std::pair<std::string, const char*>{"PK\x03\x04zip", "workbook"},
                                    {"\xD0\xCF\x11\xE0old", "workbook"},
                                    {"%PDF-1.7", "PDF"},
                                    {"\x89PNG", "picture"},
                                    {"\x1F\x8Bgz", "packed"},
                                    {" <!DOCTYPE html>", "web page"}})
    CHECK_THROWS_WITH(decoded_table(bytes, "t.csv"), Catch::StartsWith("t.csv: this is ") &&
                                                         Catch::Contains(kind) &&
                                                         Catch::Contains("as CSV (UTF-8)"));
  // 0x81 is nothing in code page 1252; 0x01 is a control character.
  CHECK_THROWS_WITH(decoded_table("a\x81,1\n", "t.csv"),
                    Catch::Contains("letters of this file cannot be read"));
  CHECK_THROWS_WITH(decoded_table("a\x01,1\n", "t.csv"), Catch::Contains("invisible control character"));
}
