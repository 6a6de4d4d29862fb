// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/table_encoding.hpp"

#include <iconv.h>

#include <algorithm>
#include <array>
#include <memory>
#include <string_view>

#include <fmt/format.h>

#include "io/text/text_encoding.hpp"
#include "io/text/user_error.hpp"

namespace crownproof {
namespace {

constexpr std::string_view save_as_csv =
    "Open it in the spreadsheet and save the sheet of the specimens as CSV (UTF-8).";

/// Files that are no text begin with bytes of their own.
void refuse_other_files(const std::string& bytes, const std::string& file) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 8> kinds{
      {{"PK\x03\x04", "a workbook of a spreadsheet (or another zip archive)"},
       {"\xD0\xCF\x11\xE0", "a workbook of a spreadsheet (or another binary document)"},
       {"%PDF", "a PDF"},
       {"\x89PNG", "a picture"},
       {"\xFF\xD8\xFF", "a picture"},
       {"\x1F\x8B", "a packed file"},
       {"{\\rtf", "a text document with formats"},
       {"\x7F"
        "ELF",
        "a program"}}};
  for (const auto& [start, kind] : kinds)
    if (bytes.starts_with(start))
      throw UserError(Place{file},
                      fmt::format("this is {}, not a table as plain text. {}", kind, save_as_csv));
  const std::size_t first = bytes.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  if (first != std::string::npos && bytes[first] == '<')
    throw UserError(Place{file},
                    fmt::format("this is a web page or XML, not a table as plain text. {}", save_as_csv));
}

/// "UTF-16LE", "UTF-16BE" or "": by the mark at the start, or because every second byte is zero.
std::string utf16_kind(const std::string& bytes) {
  if (bytes.starts_with("\xFF\xFE")) return "UTF-16LE";
  if (bytes.starts_with("\xFE\xFF")) return "UTF-16BE";
  std::array<std::size_t, 2> zeros{};
  for (std::size_t i = 0; i < bytes.size(); ++i) zeros[i % 2] += bytes[i] == '\0';
  if (bytes.size() < 4 || std::max(zeros[0], zeros[1]) < bytes.size() / 4) return "";
  return zeros[1] > zeros[0] ? "UTF-16LE" : "UTF-16BE";
}

/// By the C library's converter. Throws UserError where bytes mean nothing in that encoding.
std::string converted(std::string bytes, const std::string& encoding, const std::string& file) {
  const auto close = [](iconv_t converter) { iconv_close(converter); };
  const std::unique_ptr<void, decltype(close)> converter(iconv_open("UTF-8", encoding.c_str()), close);
  std::string text(bytes.size() * 3 + 4, '\0');
  char *from = bytes.data(), *to = text.data();
  std::size_t from_left = bytes.size(), to_left = text.size();
  if (iconv(converter.get(), &from, &from_left, &to, &to_left) == static_cast<std::size_t>(-1))
    throw UserError(Place{file}, "the letters of this file cannot be read. Save it as CSV (UTF-8).");
  text.resize(text.size() - to_left);
  return text;
}

/// Windows and old Macintosh line ends become \n.
std::string with_plain_line_ends(const std::string& text) {
  std::string plain;
  plain.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool before_newline = i + 1 < text.size() && text[i + 1] == '\n';
    if (text[i] != '\r')
      plain += text[i];
    else if (!before_newline)
      plain += '\n';
  }
  return plain;
}

}  // namespace

DecodedText decoded_table(const std::string& bytes, const std::string& file) {
  refuse_other_files(bytes, file);
  DecodedText decoded{bytes, ""};
  if (const std::string kind = utf16_kind(bytes); !kind.empty()) {
    // An odd last byte is the half of a line end that an editor left.
    decoded.text = converted(bytes.substr(0, bytes.size() / 2 * 2), kind, file);
    decoded.remark = "The file is saved as UTF-16 and was read so";
  } else if (!is_utf8(bytes)) {
    decoded.text = converted(bytes, "WINDOWS-1252", file);
    decoded.remark =
        "The file is not UTF-8 and was read as Windows-1252 (Western European): check the letters of names";
  }
  decoded.text = checked_utf8(with_plain_line_ends(decoded.text), file);
  return decoded;
}

}  // namespace crownproof
