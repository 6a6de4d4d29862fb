// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench/bench_file.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/materials/strength_data.hpp"
#include "io/text/nearest_key.hpp"
#include "io/text/text_encoding.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/specimen_formulas.hpp"

namespace crownproof {
namespace {

struct Cell {
  std::string text;
  Place place;
};

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t\r"), last = text.find_last_not_of(" \t\r");
  return first == std::string::npos ? "" : text.substr(first, last - first + 1);
}

std::vector<Cell> cells_of(const std::string& line, const std::string& file, int number) {
  std::vector<Cell> cells;
  std::size_t start = 0;
  while (true) {
    const std::size_t comma = line.find(',', start);
    const std::string text = line.substr(start, comma == std::string::npos ? comma : comma - start);
    cells.push_back({trimmed(text), {file, number, static_cast<int>(start) + 1}});
    if (text.find('"') != std::string::npos)
      throw UserError(cells.back().place,
                      "quotation marks are not needed here; remove them and any comma within.");
    if (comma == std::string::npos) return cells;
    start = comma + 1;
  }
}

using SizeMember = double BenchSpecimen::*;
const std::map<std::string, SizeMember>& size_columns() {
  using S = BenchSpecimen;
  static const std::map<std::string, SizeMember> columns{{"width_mm", &S::width_mm},
                                                         {"thickness_mm", &S::thickness_mm},
                                                         {"length_mm", &S::length_mm},
                                                         {"span_mm", &S::span_mm},
                                                         {"inner_span_mm", &S::inner_span_mm},
                                                         {"diameter_mm", &S::diameter_mm},
                                                         {"support_diameter_mm", &S::support_diameter_mm},
                                                         {"loading_diameter_mm", &S::loading_diameter_mm},
                                                         {"poisson_ratio", &S::poisson},
                                                         {"layer_tilt_deg", &S::layer_tilt_deg}};
  return columns;
}

std::vector<std::string> known_columns() {
  std::vector<std::string> names{"group", "test", "strength_MPa", "load_N", "load_cell_limit_N",
                                 "end",   "flaw", "layer_normal"};
  for (const auto& [name, member] : size_columns()) names.push_back(name);
  return names;
}

/// The header: columns are known, none twice, and there is something to make a strength from.
std::vector<Cell> checked_header(std::vector<Cell> header) {
  const std::vector<std::string> known = known_columns();
  if (header.size() == 1 && header[0].text.find(';') != std::string::npos)
    throw UserError(header[0].place,
                    "columns are separated by semicolons. Separate them by commas and write decimals with a "
                    "point.");
  for (std::size_t i = 0; i < header.size(); ++i) {
    if (std::find(known.begin(), known.end(), header[i].text) == known.end())
      throw UserError(header[i].place, unknown_word("column", header[i].text, "", known));
    for (std::size_t k = 0; k < i; ++k)
      if (header[k].text == header[i].text)
        throw UserError(header[i].place, fmt::format("the column '{}' is there twice.", header[i].text));
  }
  const auto has = [&](const char* name) {
    return std::any_of(header.begin(), header.end(), [&](const Cell& c) { return c.text == name; });
  };
  if (has("strength_MPa") == has("load_N"))
    throw UserError(header[0].place,
                    "give one of the columns 'strength_MPa' and 'load_N' (with 'test' and sizes).");
  return header;
}

/// A specimen whose first cell begins with # (a spreadsheet's #N/A, a group '#1') must not pass for a
/// comment.
void refuse_hidden_specimen(const std::string& line, std::size_t n_columns, const Place& place) {
  const auto n_cells = static_cast<std::size_t>(std::count(line.begin(), line.end(), ',')) + 1;
  if (n_columns == 0 || n_cells != n_columns || line.size() < 2 || line[1] == ' ' || line[1] == '#') return;
  throw UserError(place,
                  "this line begins with # and would pass for a comment, but has the columns of a "
                  "specimen. Write another first cell, or a space after # if it is a comment.");
}

/// Groups that differ only in letter case or kinds of space are one group misspelt.
void refuse_look_alikes(const BenchFile& bench) {
  std::map<std::string, const BenchRow*> seen;
  for (const BenchRow& row : bench.rows) {
    std::string plain;
    for (std::size_t i = 0; i < row.group.size(); ++i) {
      if (row.group.compare(i, 2, "\xC2\xA0") == 0) {  // no-break space in UTF-8
        ++i;
      } else if (row.group[i] != ' ') {
        plain +=
            static_cast<char>(row.group[i] >= 'A' && row.group[i] <= 'Z' ? row.group[i] + 32 : row.group[i]);
      }
    }
    const BenchRow& first = *seen.emplace(plain, &row).first->second;
    if (first.group != row.group)
      throw UserError(row.place,
                      fmt::format("the group '{}' differs from '{}' (line {}) only in letter case or "
                                  "spaces. Write both alike, or names that differ more.",
                                  row.group, first.group, first.place.line));
  }
}

double number_of(const Cell& cell, const std::string& column) {
  double value = 0;
  const auto [end, error] = std::from_chars(cell.text.data(), cell.text.data() + cell.text.size(), value);
  if (error != std::errc() || end != cell.text.data() + cell.text.size() || !std::isfinite(value))
    throw UserError(
        cell.place,
        fmt::format("'{}' in column '{}' is not a number. Write decimals with a point.", cell.text, column));
  if (!(value > 0) && column != "poisson_ratio" && column != "layer_tilt_deg")
    throw UserError(cell.place, fmt::format("{} in column '{}' must be above zero.", cell.text, column));
  return value;
}

template <typename Value>
Value word_of(const Cell& cell, const char* what, const std::vector<std::pair<std::string, Value>>& words) {
  std::vector<std::string> names;
  for (const auto& [name, value] : words) {
    if (name == cell.text) return value;
    names.push_back(name);
  }
  throw UserError(cell.place, unknown_word(what, cell.text, "", names));
}

/// Outside these a strength is in another unit than the column says: porous ceramics bear some MPa, the
/// strongest dense ones in compression some thousand (wide on purpose; common practice, no source).
constexpr double weakest_MPa = 2, strongest_MPa = 20000;

/// One line while it is being read.
struct Reading {
  BenchRow row;
  BenchSpecimen specimen;
  bool has_test = false, has_poisson = false;
  std::optional<double> load_N;

  void take(const std::string& column, const Cell& cell) {
    if (cell.text.empty() && column == "group")
      throw UserError(
          cell.place,
          "the group is empty. Write its name in every line: of merged cells a table keeps only the "
          "first.");
    if (cell.text.empty() && column != "strength_MPa" && column != "load_N") return;
    has_poisson = has_poisson || column == "poisson_ratio";
    const auto size = size_columns().find(column);
    if (size != size_columns().end()) specimen.*(size->second) = number_of(cell, column);
    if (column == "group") row.group = cell.text;
    if (column == "flaw") row.flaw = cell.text;
    if (column == "strength_MPa") row.strength_MPa = number_of(cell, column);
    if (column == "load_N") load_N = number_of(cell, column);
    if (column == "load_cell_limit_N") row.load_cell_limit_N = number_of(cell, column);
    if (column == "test") specimen.test = word_of(cell, "test", bench_test_words()), has_test = true;
    if (column == "layer_normal") specimen.layer_normal = word_of(cell, "layer normal", layer_normal_words());
    if (column == "end")
      row.end = word_of<BenchEnd>(cell, "end of a test",
                                  {{"broken", BenchEnd::broken},
                                   {"suspended", BenchEnd::suspended},
                                   {"censored", BenchEnd::suspended},
                                   {"broken_otherwise", BenchEnd::broken_otherwise}});
  }

  BenchRow finished() {
    if (has_test) {
      if (const auto why = why_no_specimen(specimen)) throw UserError(row.place, *why);
      row.specimen = specimen;
    }
    if (load_N && !has_test)
      throw UserError(row.place,
                      "a load needs the 'test' and the sizes of the specimen to become a strength.");
    if (load_N) row.strength_MPa = nominal_stress(specimen, *load_N);
    refuse_impossible();
    return row;
  }

  /// Lines that can be read but cannot be true: each would go into the fit in silence.
  void refuse_impossible() const {
    if (has_test && is_disc(specimen.test) && !has_poisson)
      throw UserError(row.place,
                      "the stress in a disc depends on Poisson's ratio: add the column "
                      "'poisson_ratio' (dental ceramics: 0.2 to 0.33).");
    if (load_N && row.load_cell_limit_N && row.end == BenchEnd::broken && *load_N > *row.load_cell_limit_N)
      throw UserError(
          row.place,
          fmt::format("the specimen broke at {:g} N, above the load cell's limit of {:g} N. Correct "
                      "'load_N' or 'load_cell_limit_N'.",
                      *load_N, *row.load_cell_limit_N));
    if (row.strength_MPa < weakest_MPa || row.strength_MPa > strongest_MPa)
      throw UserError(
          row.place,
          fmt::format("a strength of {:g} MPa lies outside {:g} to {:g} MPa. Check the units: {}.",
                      row.strength_MPa, weakest_MPa, strongest_MPa,
                      load_N ? "loads are in N, sizes in mm" : "strengths are in MPa, not Pa or GPa"));
  }
};

}  // namespace

BenchFile parse_bench_text(const std::string& raw, const std::string& file) {
  const std::string text = checked_utf8(raw, file);
  BenchFile bench{file, {}};
  std::vector<Cell> header;
  std::size_t start = 0;
  for (int number = 1; start < text.size(); ++number) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    const std::string line = trimmed(text.substr(start, end - start));
    start = end + 1;
    if (!line.empty() && line[0] == '#') refuse_hidden_specimen(line, header.size(), {file, number, 1});
    if (line.empty() || line[0] == '#') continue;
    std::vector<Cell> cells = cells_of(line, file, number);
    if (header.empty()) {
      header = checked_header(std::move(cells));
      continue;
    }
    if (cells.size() != header.size())
      throw UserError({file, number, 1}, fmt::format("this line has {} columns, the first line has {}.",
                                                     cells.size(), header.size()));
    Reading reading;
    reading.row.group = "all";
    reading.row.place = {file, number, 1};
    for (std::size_t i = 0; i < cells.size(); ++i) reading.take(header[i].text, cells[i]);
    bench.rows.push_back(reading.finished());
  }
  if (bench.rows.empty()) throw UserError(Place{file}, "there are no specimens in this file.");
  refuse_look_alikes(bench);
  return bench;
}

BenchFile read_bench_file(const std::filesystem::path& file) {
  return parse_bench_text(read_text_file(file), file.string());
}

Group bench_group(const BenchFile& bench, const std::string& name) {
  Group group{name, {}};
  for (const BenchRow& row : bench.rows)
    if (row.group == name) {
      group.specimens.push_back({row.strength_MPa, row.end == BenchEnd::broken});
      group.n_broken_otherwise += row.end == BenchEnd::broken_otherwise;
    }
  return group;
}

std::vector<std::string> bench_group_names(const BenchFile& bench) {
  std::vector<std::string> names;
  for (const BenchRow& row : bench.rows)
    if (std::find(names.begin(), names.end(), row.group) == names.end()) names.push_back(row.group);
  return names;
}

}  // namespace crownproof
