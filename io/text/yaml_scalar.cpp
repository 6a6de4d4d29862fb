// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/yaml_scalar.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <string_view>

#include "io/text/nearest_key.hpp"
#include "io/text/units.hpp"

namespace crownproof {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Optional sign, digits with an optional point, optional exponent: the decimal numbers of YAML 1.2.
bool is_decimal(std::string_view text) {
  std::size_t at = 0;
  const auto digits = [&] {
    const std::size_t first = at;
    while (at < text.size() && is_digit(text[at])) ++at;
    return at - first;
  };
  const auto sign = [&] { at += at < text.size() && (text[at] == '+' || text[at] == '-'); };
  sign();
  std::size_t n_digits = digits();
  if (at < text.size() && text[at] == '.') {
    ++at;
    n_digits += digits();
  }
  if (n_digits == 0) return false;
  if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
    ++at;
    sign();
    if (digits() == 0) return false;
  }
  return at == text.size();
}

std::string_view without_sign(std::string_view text) {
  return !text.empty() && (text[0] == '+' || text[0] == '-') ? text.substr(1) : text;
}

/// Why a text is no number, as a remedy.
std::string number_remedy(const std::string& text) {
  const std::string small = in_small_letters(text);
  const std::string_view body = without_sign(small);
  if (body == ".inf" || body == "inf" || body == "infinity" || body == ".nan" || body == "nan")
    return "Write a finite number.";
  if (body.substr(0, 2) == "0x" || body.substr(0, 2) == "0o" || body.substr(0, 2) == "0b")
    return "Write it in decimal.";
  std::string joined = text;
  joined.erase(std::remove(joined.begin(), joined.end(), '_'), joined.end());
  if (joined != text && is_decimal(joined)) return fmt::format("Write {} without underscores.", joined);
  joined.erase(std::remove_if(joined.begin(), joined.end(), [](char c) { return c == ' ' || c == '\''; }),
               joined.end());
  if (joined != text && joined.size() > 3 && is_decimal(joined))
    return fmt::format("Write {} without gaps between its digits.", joined);
  std::string pointed = text;
  std::replace(pointed.begin(), pointed.end(), ',', '.');
  if (pointed != text && is_decimal(pointed)) return fmt::format("Write {} with a decimal point.", pointed);
  const std::size_t end = text.find_first_not_of("0123456789.+-");
  if (end != std::string::npos && end > 0 && is_decimal(text.substr(0, end)))
    return fmt::format("Write {} alone; the unit is part of the key's name.", text.substr(0, end));
  return "Write a decimal number such as 1.5.";
}

bool is_ambiguous_word(const std::string& text) {
  static constexpr std::array<std::string_view, 8> words{"yes", "no", "on", "off", "true", "false", "y", "n"};
  return std::find(words.begin(), words.end(), in_small_letters(text)) != words.end();
}

}  // namespace

double to_number(const YamlNode& node, const std::string& what) {
  if (node.kind != YamlKind::scalar)
    throw UserError(node.place, fmt::format("{} must be a number, not {}.", what, describe(node)));
  const std::string& text = node.text;
  if (text.size() > 40)
    throw UserError(node.place, fmt::format("{} must be a number, not '{}'.", what, shortened(text)));
  if (node.quoted)
    throw UserError(node.place, fmt::format("{} must be a number, but '{}' stands in quotes, which makes it "
                                            "text. Write it without quotes.",
                                            what, text));
  if (!is_decimal(text))
    throw UserError(node.place,
                    fmt::format("{} must be a number, not '{}'. {}", what, text, number_remedy(text)));
  const std::string_view body = without_sign(text);
  if (body.size() > 1 && body[0] == '0' && is_digit(body[1]))
    throw UserError(node.place, fmt::format("{}: '{}' starts with a zero, which some YAML readers take for "
                                            "octal. Write it without the leading zero.",
                                            what, text));
  const std::string_view parsed = text[0] == '+' ? body : std::string_view(text);
  double value = 0;
  const auto [end, error] = std::from_chars(parsed.data(), parsed.data() + parsed.size(), value);
  if (error != std::errc() || end != parsed.data() + parsed.size() || !std::isfinite(value))
    throw UserError(node.place, fmt::format("{}: '{}' is too large or too small for a number.", what, text));
  return value;
}

int to_whole_number(const YamlNode& node, const std::string& what) {
  const double value = to_number(node, what);
  const bool fits = std::abs(value) <= std::numeric_limits<int>::max();
  if (!fits || value != std::floor(value))
    throw UserError(node.place, fmt::format("{} must be a whole number, not {}.", what, node.text));
  return static_cast<int>(value);
}

bool to_truth(const YamlNode& node, const std::string& what) {
  const bool plain = node.kind == YamlKind::scalar && !node.quoted;
  if (plain && node.text == "true") return true;
  if (plain && node.text == "false") return false;
  throw UserError(node.place, fmt::format("{} must be true or false, not {}.", what, describe(node)));
}

std::string to_text(const YamlNode& node, const std::string& what) {
  if (node.kind != YamlKind::scalar)
    throw UserError(node.place, fmt::format("{} must be text, not {}.", what, describe(node)));
  if (!node.quoted && (is_ambiguous_word(node.text) || is_decimal(node.text)))
    throw UserError(node.place, fmt::format("{} must be text, but {} without quotes is not. Write \"{}\".",
                                            what, node.text, node.text));
  return node.text;
}

}  // namespace crownproof
