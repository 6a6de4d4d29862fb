// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/delimited_text.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace crownproof {
namespace {

/// No-break, figure, thin and narrow blanks become plain ones; blanks without width go.
std::pair<std::string, bool> with_plain_blanks(std::string text) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 6> blanks{{{"\xC2\xA0", " "},
                                                                                 {"\xE2\x80\x87", " "},
                                                                                 {"\xE2\x80\x89", " "},
                                                                                 {"\xE2\x80\xAF", " "},
                                                                                 {"\xE2\x80\x8B", ""},
                                                                                 {"\xEF\xBB\xBF", ""}}};
  bool odd = false;
  for (const auto& [blank, plain] : blanks)
    for (auto at = text.find(blank); at != std::string::npos; at = text.find(blank, at)) {
      text.replace(at, blank.size(), plain);
      odd = true;
    }
  return {text, odd};
}

/// Runs of blanks become one; none at the ends.
std::string trimmed(const std::string& text) {
  std::string plain;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\t' || c == '\n';
    if (!blank)
      plain += c;
    else if (!plain.empty() && plain.back() != ' ')
      plain += ' ';
  }
  if (!plain.empty() && plain.back() == ' ') plain.pop_back();
  return plain;
}

/// Walks through the text once.
class Splitter {
 public:
  Splitter(const std::string& text, const std::string& file, char separator)
      : text_(text), separator_(separator), here_{file, 1, 1} {}

  DelimitedText split() {
    DelimitedText table;
    while (at_ < text_.size()) {
      TableLine line = next_line();
      const bool holds_anything = std::any_of(line.cells.begin(), line.cells.end(),
                                              [](const TableCell& cell) { return !cell.text.empty(); });
      if (holds_anything) table.lines.push_back(std::move(line));
    }
    table.open_quote = open_quote_;
    return table;
  }

 private:
  bool more_in_line() const { return at_ < text_.size() && text_[at_] != '\n'; }

  char take() {
    const char c = text_[at_++];
    if (c == '\n') {
      ++here_.line;
      here_.column = 1;
    } else if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) {  // a character, not its later bytes
      ++here_.column;
    }
    return c;
  }

  TableLine next_line() {
    TableLine line;
    line.place = here_;
    line.begins_with_hash =
        text_.compare(std::min(text_.find_first_not_of(" \t", at_), text_.size()), 1, "#") == 0;
    // A mark in a comment opens nothing.
    const bool in_quotes_over_lines = !line.begins_with_hash;
    line.cells.push_back(next_cell(in_quotes_over_lines));
    while (more_in_line()) {
      take();  // the separator
      line.cells.push_back(next_cell(in_quotes_over_lines));
    }
    if (at_ < text_.size()) take();  // the line end
    return line;
  }

  TableCell next_cell(bool over_lines) {
    while (more_in_line() && text_[at_] == ' ' && separator_ != ' ') take();
    TableCell cell{"", here_};
    std::string text = more_in_line() && text_[at_] == '"' ? quoted(over_lines) : "";
    while (more_in_line() && text_[at_] != separator_) text += take();
    const auto [plain, odd] = with_plain_blanks(std::move(text));
    cell.odd_blanks = odd;
    cell.text = trimmed(plain);
    return cell;
  }

  /// What stands between quotation marks; two of them mean one.
  std::string quoted(bool over_lines) {
    const Place start = here_;
    std::string text;
    take();
    while (at_ < text_.size() && (over_lines || text_[at_] != '\n')) {
      const char c = take();
      if (c != '"') {
        text += c;
      } else if (more_in_line() && text_[at_] == '"') {
        text += take();
      } else {
        return text;
      }
    }
    if (over_lines && !open_quote_) open_quote_ = start;
    return text;
  }

  const std::string& text_;
  char separator_;
  std::size_t at_ = 0;
  Place here_;
  std::optional<Place> open_quote_;
};

}  // namespace

DelimitedText split_table(const std::string& text, const std::string& file, char separator) {
  return Splitter(text, file, separator).split();
}

}  // namespace crownproof
