// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/bench_columns.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

#include "io/text/nearest_key.hpp"

namespace crownproof {
namespace {

bool among(const std::string& word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// Small letters; underscores, hyphens, line breaks and doubled blanks become single blanks.
std::string plain_words(const std::string& text) {
  std::string plain;
  for (char c : in_small_letters(text)) {
    if (c == '_' || c == '-' || c == '\n' || c == '\t') c = ' ';
    if (c != ' ' || (!plain.empty() && plain.back() != ' ')) plain += c;
  }
  while (!plain.empty() && std::string_view(" ,:;/.*").find(plain.back()) != std::string_view::npos)
    plain.pop_back();
  return plain;
}

/// "load [kN]" -> "load ", "kN"; nothing without brackets at the end.
std::optional<std::pair<std::string, std::string>> bracketed(const std::string& text) {
  const std::size_t close = text.find_last_of(")]");
  if (close == std::string::npos || close + 1 != text.size()) return std::nullopt;
  const std::size_t open = text.rfind(text[close] == ')' ? '(' : '[', close);
  if (open == std::string::npos) return std::nullopt;
  return std::pair{text.substr(0, open), text.substr(open + 1, close - open - 1)};
}

/// "load_kN", "F / N", "strength in N/mm2" -> the words before and the last word.
std::optional<std::pair<std::string, std::string>> last_word(const std::string& text) {
  std::size_t cut = text.find_last_of(" _,/");
  if (cut == std::string::npos || cut == 0) return std::nullopt;
  const std::size_t before = text.find_last_of(" _,", cut);
  if (text[cut] == '/' && before != std::string::npos && unit_of(text.substr(before + 1))) cut = before;
  return std::pair{text.substr(0, cut), text.substr(cut + 1)};
}

std::vector<BenchColumn> columns_of_sizes() {
  using S = BenchSpecimen;
  constexpr Dimension mm = Dimension::length;
  return {{"width_mm", mm, true, &S::width_mm, {"width", "specimen width", "breadth"}},
          {"thickness_mm", mm, true, &S::thickness_mm, {"thickness", "specimen thickness"}},
          {"length_mm", mm, true, &S::length_mm, {"length"}},
          {"span_mm", mm, true, &S::span_mm, {"span", "outer span", "support span", "span length"}},
          {"inner_span_mm", mm, true, &S::inner_span_mm, {"inner span", "loading span", "load span"}},
          {"diameter_mm", mm, true, &S::diameter_mm, {"diameter", "disc diameter", "disk diameter"}},
          {"support_diameter_mm",
           mm,
           true,
           &S::support_diameter_mm,
           {"support diameter", "support circle diameter", "support ring diameter"}},
          {"loading_diameter_mm",
           mm,
           true,
           &S::loading_diameter_mm,
           {"loading diameter", "piston diameter", "loading ring diameter"}},
          {"poisson_ratio",
           Dimension::none,
           true,
           &S::poisson,
           {"poisson ratio", "poisson", "poisson's ratio", "poissons ratio"}},
          {"layer_tilt_deg", Dimension::angle, true, &S::layer_tilt_deg, {"layer tilt"}}};
}

BenchColumn strength_column() {
  BenchColumn column{
      "strength_MPa", Dimension::stress, true, nullptr, {"strength", "stress", "sigma", "\xCF\x83"}};
  for (const char* kind :
       {"flexural", "flexure", "bending", "fracture", "failure", "breaking", "biaxial", "tensile",
        "compressive", "biaxial flexural", "maximum", "max", "maximum flexural", "ultimate"})
    for (const char* what : {"strength", "stress"}) column.words.push_back(fmt::format("{} {}", kind, what));
  for (const char* other : {"strength at break", "stress at break", "modulus of rupture"})
    column.words.push_back(other);
  return column;
}

BenchColumn load_column() {
  BenchColumn column{"load_N", Dimension::force, true, nullptr, {"load", "force", "f", "fmax", "f max"}};
  for (const char* kind : {"fracture", "failure", "breaking", "max", "maximum", "peak", "ultimate"})
    for (const char* what : {"load", "force"}) column.words.push_back(fmt::format("{} {}", kind, what));
  for (const char* other : {"load at fracture", "load at break"}) column.words.push_back(other);
  return column;
}

std::vector<BenchColumn> all_columns() {
  std::vector<BenchColumn> all{
      {"group",
       {},
       false,
       nullptr,
       {"groups", "group name", "material", "batch", "series", "condition", "treatment"}},
      {"test", {}, false, nullptr, {"test method", "kind of test", "type of test", "test type"}},
      strength_column(),
      load_column(),
      {"load_cell_limit_N", Dimension::force, true, nullptr, {"load cell limit", "load cell", "load limit"}},
      {"end", {}, false, nullptr, {"end of test", "how it ended"}},
      {"flaw", {}, false, nullptr, {"flaw type", "flaw origin", "fracture origin", "origin", "defect"}},
      {"layer_normal", {}, false, nullptr, {}}};
  for (BenchColumn& size : columns_of_sizes()) all.push_back(std::move(size));
  return all;
}

}  // namespace

const std::vector<BenchColumn>& bench_columns() {
  static const std::vector<BenchColumn> columns = all_columns();
  return columns;
}

std::vector<std::string> bench_column_names() {
  std::vector<std::string> names;
  for (const BenchColumn& column : bench_columns()) names.push_back(column.name);
  return names;
}

ColumnTitle column_title(const std::string& text) {
  auto parts = bracketed(text);
  if (!parts) parts = last_word(text);
  const auto unit = parts ? unit_of(parts->second) : std::nullopt;
  if (!unit) return {plain_words(text), {}};
  std::string words = plain_words(parts->first);
  if (words.ends_with(" in")) words.resize(words.size() - 3);
  return {words, unit};
}

const BenchColumn* bench_column(const std::string& text) {
  const ColumnTitle title = column_title(text);
  for (const BenchColumn& column : bench_columns()) {
    const bool named = column.name == text || column_title(column.name).words == title.words;
    if (named || std::find(column.words.begin(), column.words.end(), title.words) != column.words.end())
      return &column;
  }
  return nullptr;
}

std::string nearly_bench_column(const std::string& text) {
  const std::string words = column_title(text).words;
  std::vector<std::string> known;
  for (const BenchColumn& column : bench_columns()) known.push_back(column_title(column.name).words);
  const std::string near = nearest_key(words, known);
  for (const BenchColumn& column : bench_columns())
    if (!near.empty() && column_title(column.name).words == near) return column.name;
  return "";
}

bool may_tell_the_end(const std::string& text) {
  return among(column_title(text).words,
               {"censored", "censoring", "censor", "suspended", "broken", "broke", "fractured", "fracture",
                "failed", "failure", "status", "event", "result", "outcome", "survived", "survival",
                "run out", "runout", "intact"});
}

bool may_tell_how_many(const std::string& text) {
  return among(column_title(text).words, {"count", "counts", "frequency", "replicates", "repeats",
                                          "multiplicity", "times", "number of specimens", "n specimens"});
}

bool numbers_specimens(const std::string& text) {
  return among(
      column_title(text).words,
      {"specimen", "specimens", "specimen no", "specimen number", "specimen id", "sample", "sample no",
       "sample number", "sample id", "no", "nr", "id", "number", "#", "bar", "disc", "bar no", "disc no"});
}

}  // namespace crownproof
