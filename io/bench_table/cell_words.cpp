// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/cell_words.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

#include "io/materials/strength_data.hpp"
#include "io/text/nearest_key.hpp"
#include "io/text/units.hpp"

namespace crownproof {
namespace {

template <typename Value>
using Words = std::vector<std::pair<std::string, Value>>;

/// "Did not break" -> "did_not_break".
std::string plain(const std::string& text) {
  std::string word = in_small_letters(text);
  for (char& c : word)
    if (c == ' ' || c == '-') c = '_';
  while (!word.empty() && (word.back() == '.' || word.back() == '_')) word.pop_back();
  return word;
}

template <typename Value>
UnderstoodWord<Value> understood(const TableCell& cell, const std::string& what, const Words<Value>& words,
                                 const Words<Value>& others) {
  const std::string word = plain(cell.text);
  std::vector<std::string> allowed;
  for (const auto& [name, value] : words) {
    if (name == word) return {value};
    allowed.push_back(name);
  }
  for (const auto& other : others)
    if (other.first == word) {
      const auto named = std::find_if(words.begin(), words.end(),
                                      [&](const auto& known) { return known.second == other.second; });
      return {other.second, {{fmt::format("'{}' was read as '{}'", cell.text, named->first), cell.place}}};
    }
  throw UserError(cell.place, unknown_word(what, cell.text, "", allowed));
}

bool among(const std::string& word, const std::vector<std::string_view>& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// What is written for bending on three and four rollers.
Words<BenchTest> other_test_words() {
  Words<BenchTest> words{{"piston_on_3_balls", BenchTest::piston_on_three_balls},
                         {"piston_on_three_ball", BenchTest::piston_on_three_balls},
                         {"tensile", BenchTest::tension},
                         {"tensile_test", BenchTest::tension},
                         {"compressive", BenchTest::compression},
                         {"compression_test", BenchTest::compression}};
  constexpr std::array<std::pair<const char*, BenchTest>, 4> rollers{{{"3", BenchTest::bend_3_point},
                                                                      {"three", BenchTest::bend_3_point},
                                                                      {"4", BenchTest::bend_4_point},
                                                                      {"four", BenchTest::bend_4_point}}};
  for (const auto& [number, test] : rollers)
    for (const char* rest : {"_point_bending", "_point_bend", "_point_flexure", "_point_bending_test", "pb",
                             "_pb", "_pt_bending", "_point", "point_bending"})
      words.emplace_back(fmt::format("{}{}", number, rest), test);
  return words;
}

const Words<BenchEnd>& end_words() {
  static const Words<BenchEnd> words{{"broken", BenchEnd::broken},
                                     {"suspended", BenchEnd::suspended},
                                     {"censored", BenchEnd::suspended},
                                     {"broken_otherwise", BenchEnd::broken_otherwise}};
  return words;
}

const Words<BenchEnd>& other_end_words() {
  static const Words<BenchEnd> others{{"broke", BenchEnd::broken},
                                      {"fractured", BenchEnd::broken},
                                      {"fracture", BenchEnd::broken},
                                      {"failed", BenchEnd::broken},
                                      {"did_not_break", BenchEnd::suspended},
                                      {"not_broken", BenchEnd::suspended},
                                      {"unbroken", BenchEnd::suspended},
                                      {"intact", BenchEnd::suspended},
                                      {"survived", BenchEnd::suspended},
                                      {"no_fracture", BenchEnd::suspended},
                                      {"not_fractured", BenchEnd::suspended},
                                      {"no_failure", BenchEnd::suspended},
                                      {"run_out", BenchEnd::suspended},
                                      {"runout", BenchEnd::suspended},
                                      {"right_censored", BenchEnd::suspended}};
  return others;
}

}  // namespace

UnderstoodWord<BenchTest> test_word(const TableCell& cell) {
  static const Words<BenchTest> others = other_test_words();
  const bool number = !cell.text.empty() && std::all_of(cell.text.begin(), cell.text.end(),
                                                        [](char c) { return c >= '0' && c <= '9'; });
  if (number)
    throw UserError(cell.place,
                    fmt::format("'{}' is no kind of test. If the column numbers the specimens, name it "
                                "'specimen'; otherwise write one of: {}.",
                                shortened(cell.text), [] {
                                  std::string all;
                                  for (const auto& [name, test] : bench_test_words())
                                    all += (all.empty() ? "" : ", ") + name;
                                  return all;
                                }()));
  return understood<BenchTest>(cell, "test", bench_test_words(), others);
}

UnderstoodWord<BenchEnd> end_word(const TableCell& cell) {
  return understood<BenchEnd>(cell, "end of a test", end_words(), other_end_words());
}

bool is_end_word(const std::string& text) {
  const std::string word = plain(text);
  const auto named = [&](const auto& w) { return w.first == word; };
  return std::any_of(end_words().begin(), end_words().end(), named) ||
         std::any_of(other_end_words().begin(), other_end_words().end(), named);
}

UnderstoodWord<std::optional<LayerNormal>> layer_normal_of_word(const TableCell& cell) {
  return understood<std::optional<LayerNormal>>(cell, "layer normal", layer_normal_words(), {});
}

bool names_a_summary(const std::string& text) {
  std::string word = plain(text);
  while (!word.empty() && (word.back() == ':' || word.back() == '=')) word.pop_back();
  return among(word, {"mean",
                      "average",
                      "avg",
                      "mean_value",
                      "sd",
                      "s.d",
                      "std",
                      "stdev",
                      "st_dev",
                      "std_dev",
                      "std._dev",
                      "std.dev",
                      "standard_deviation",
                      "median",
                      "min",
                      "max",
                      "minimum",
                      "maximum",
                      "cv",
                      "coefficient_of_variation",
                      "sum",
                      "total",
                      "count",
                      "range",
                      "variance",
                      "standard_error"});
}

bool begins_like_a_summary(const std::string& text) {
  const std::string word = plain(text);
  return among(word.substr(0, word.find_first_of("_(:=")),
               {"mean", "average", "avg", "median", "sd", "std", "stdev"}) ||
         word.starts_with("standard_dev");
}

bool stands_for_no_name(const std::string& text) {
  return among(in_small_letters(text), {"-", "--", "\xE2\x80\x93", "\xE2\x80\x94", "?", "n/a", "n.a.", ".",
                                        "''", "\"", "\xE3\x80\x83", "ditto", "do.", "idem"});
}

}  // namespace crownproof
