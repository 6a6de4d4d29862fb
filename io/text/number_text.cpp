// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/number_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

#include "io/text/units.hpp"

namespace crownproof {
namespace {

/// Longer texts are no numbers.
constexpr std::size_t longest_number = 60;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Signs that stand for a plain one: minus sign, typographic apostrophe.
std::string plain_signs(std::string text) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 4> plain{
      {{"\xE2\x88\x92", "-"}, {"\xE2\x80\x99", "'"}, {"\xE2\x89\xA5", ">"}, {">=", ">"}}};
  for (const auto& [from, to] : plain)
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
      text.replace(at, from.size(), to);
  return text;
}

/// Sign, digits with the marks between them, exponent; and what stands behind.
struct Parts {
  std::string sign, digits, exponent, rest;
};

std::size_t end_of_digits(const std::string& text, std::size_t at) {
  constexpr std::string_view marks = ".,' ";
  while (at < text.size() && (is_digit(text[at]) || marks.find(text[at]) != std::string_view::npos)) ++at;
  while (at > 0 && text[at - 1] == ' ') --at;
  return at;
}

Parts parts_of(const std::string& text) {
  Parts parts;
  std::size_t at = 0;
  if (!text.empty() && (text[0] == '+' || text[0] == '-')) parts.sign = text.substr(at++, 1);
  const std::size_t end = end_of_digits(text, at);
  parts.digits = text.substr(at, end - at);
  at = end;
  if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
    std::size_t stop = at + 1;
    if (stop < text.size() && (text[stop] == '+' || text[stop] == '-')) ++stop;
    const std::size_t first = stop;
    while (stop < text.size() && is_digit(text[stop])) ++stop;
    if (stop > first) parts.exponent = text.substr(at, stop - at), at = stop;
  }
  const std::size_t rest = text.find_first_not_of(' ', at);
  if (rest != std::string::npos) parts.rest = text.substr(rest);
  return parts;
}

/// One to three digits, then threes, set apart by one and the same mark.
bool in_threes(const std::string& digits, char mark) {
  std::size_t run = 0, n_marks = 0;
  for (const char c : digits) {
    if (c == mark) {
      if (run == 0 || run > 3 || (n_marks > 0 && run != 3)) return false;
      ++n_marks;
      run = 0;
    } else if (is_digit(c)) {
      ++run;
    } else {
      return false;
    }
  }
  return n_marks > 0 && run == 3;
}

/// The whole part without its marks, or nothing if they do not stand where thousands end.
std::optional<std::string> whole_part(const std::string& digits, DecimalMark decimal) {
  if (std::all_of(digits.begin(), digits.end(), is_digit)) return digits;
  for (const char mark : {' ', '\'', decimal == DecimalMark::point ? ',' : '.'})
    if (in_threes(digits, mark)) {
      std::string plain = digits;
      std::erase(plain, mark);
      return plain;
    }
  return std::nullopt;
}

/// The digits with a decimal point, or nothing.
std::optional<std::string> plain_digits(const std::string& digits, DecimalMark decimal) {
  const std::size_t mark = digits.find(decimal == DecimalMark::point ? '.' : ',');
  auto whole = whole_part(digits.substr(0, mark), decimal);
  if (!whole) return std::nullopt;
  if (mark == std::string::npos) return whole;
  const std::string decimals = digits.substr(mark + 1);
  if (!std::all_of(decimals.begin(), decimals.end(), is_digit)) return std::nullopt;
  if (whole->empty() && decimals.empty()) return std::nullopt;
  return *whole + "." + decimals;
}

bool names_a_month(const std::string& small) {
  constexpr std::array<std::string_view, 12> months{"jan", "feb", "mar", "apr", "may", "jun",
                                                    "jul", "aug", "sep", "oct", "nov", "dec"};
  return std::any_of(months.begin(), months.end(), [&](std::string_view month) {
    const std::size_t at = small.find(month);
    return at != std::string::npos && (at == 0 || !std::isalpha(static_cast<unsigned char>(small[at - 1])));
  });
}

/// 12-Mar, 3/12, 2024-03-12, 12.03.2024.
bool looks_like_date(const std::string& text) {
  if (text.empty() || !std::any_of(text.begin(), text.end(), is_digit)) return false;
  if (names_a_month(in_small_letters(text))) return true;
  if (!std::all_of(text.begin(), text.end(),
                   [](char c) { return is_digit(c) || c == '-' || c == '/' || c == '.'; }))
    return false;
  const auto n = [&](char mark) { return std::count(text.begin() + 1, text.end(), mark); };
  return n('/') > 0 || n('-') > 0 || n('.') == 2;
}

std::string why_no_number(const std::string& text) {
  if (text.size() > longest_number) return "Write decimals with a point and nothing else in the cell.";
  if (text[0] == '=')
    return "It is a formula of a spreadsheet. Save the table as CSV again, with values instead of formulas.";
  if (text[0] == '#')
    return "It is an error value of a spreadsheet (of a formula, or of a column too narrow for its number). "
           "Mend it there, or delete the line.";
  if (looks_like_date(text))
    return "It looks like a date, which spreadsheets make of numbers such as 3.12 or 3-12. Format the column "
           "as "
           "numbers there and enter it again.";
  if (text[0] == '<' || text[0] == '~') return "Write the value that was measured, without a sign before it.";
  if (stands_for_nothing(text)) return "Where nothing was measured, delete the line.";
  return "Write decimals with a point and nothing else in the cell.";
}

NumberText no_number(const std::string& text) {
  NumberText none;
  none.why_not = why_no_number(text);
  return none;
}

}  // namespace

bool stands_for_nothing(const std::string& text) {
  constexpr std::array<std::string_view, 14> words{
      "-",  "--",  "\xE2\x80\x93", "\xE2\x80\x94", "?",       "n/a", "n.a.",
      "na", "nan", "none",         "null",         "unknown", ".",   "missing"};
  return std::find(words.begin(), words.end(), in_small_letters(text)) != words.end();
}

MarkHint mark_hint(const std::string& text) {
  if (text.size() > longest_number) return MarkHint::none;
  const Parts parts = parts_of(plain_signs(text[0] == '>' ? text.substr(1) : text));
  const std::string& digits = parts.digits;
  const auto points = std::count(digits.begin(), digits.end(), '.');
  const auto commas = std::count(digits.begin(), digits.end(), ',');
  if (digits.empty() || points + commas == 0 || (!parts.rest.empty() && !unit_of(parts.rest)))
    return MarkHint::none;
  const bool as_point = plain_digits(digits, DecimalMark::point).has_value();
  const bool as_comma = plain_digits(digits, DecimalMark::comma).has_value();
  if (as_point == as_comma) {
    // A whole part of 0 is never set apart from its thousands.
    if (!as_point) return MarkHint::none;
    if (digits[0] == '0') return points > 0 ? MarkHint::point : MarkHint::comma;
    return points > 0 ? MarkHint::either_with_point : MarkHint::either_with_comma;
  }
  return as_point ? MarkHint::point : MarkHint::comma;
}

NumberText read_number(const std::string& written, DecimalMark mark) {
  if (written.empty() || written.size() > longest_number) return no_number(written.empty() ? "-" : written);
  std::string text = plain_signs(written);
  NumberText number;
  if (text[0] == '>') {
    number.or_more = true;
    text = text.substr(std::min(text.find_first_not_of("> "), text.size()));
  }
  const Parts parts = parts_of(text);
  const auto digits = plain_digits(parts.digits, mark);
  if (!digits || digits->empty() || (!parts.rest.empty() && !unit_of(parts.rest))) return no_number(written);
  const std::string plain = (parts.sign == "-" ? "-" : "") + *digits + parts.exponent;
  double value = 0;
  const auto [end, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
  if (error != std::errc() || end != plain.data() + plain.size() || !std::isfinite(value))
    return no_number(written);
  number.value = value;
  number.unit = parts.rest;
  number.thousands = parts.digits.size() != digits->size();
  number.rounded = !parts.exponent.empty() && std::count_if(digits->begin(), digits->end(), is_digit) <= 3;
  return number;
}

}  // namespace crownproof
