// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/no_header.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "io/bench_table/bench_columns.hpp"
#include "io/text/nearest_key.hpp"
#include "io/text/number_text.hpp"

namespace crownproof {
namespace {

constexpr const char* what_is_needed =
    "The first line must name the columns, one of them 'strength_MPa' or 'load_N' (with 'test' and sizes), "
    "and each "
    "specimen has a line of its own.";

/// The line that comes nearest to a header, by the titles that are or nearly are known.
const TableLine& likeliest_header(const std::vector<const TableLine*>& lines) {
  const auto n_near = [](const TableLine* line) {
    return std::count_if(line->cells.begin(), line->cells.end(), [](const TableCell& cell) {
      return bench_column(cell.text) || !nearly_bench_column(cell.text).empty();
    });
  };
  const auto stop = lines.begin() + std::min<std::ptrdiff_t>(30, static_cast<std::ptrdiff_t>(lines.size()));
  return **std::max_element(lines.begin(), stop,
                            [&](const TableLine* a, const TableLine* b) { return n_near(a) < n_near(b); });
}

/// Titles stand below each other in the first column.
void refuse_table_on_its_side(const std::vector<const TableLine*>& lines) {
  const auto n = std::count_if(lines.begin(), lines.end(), [](const TableLine* line) {
    const BenchColumn* column = bench_column(line->cells[0].text);
    return line->cells.size() > 2 && column && column->is_number;
  });
  if (n > 0)
    throw UserError(
        lines[0]->place,
        "the table lies on its side: the first column names what the lines hold. Transpose it, so that "
        "each specimen has a line of its own and the first line names the columns.");
}

void refuse_columns_by_blanks(const TableLine& header) {
  if (header.cells.size() != 1 || header.cells[0].text.find(' ') == std::string::npos) return;
  std::string word;
  for (const char c : header.cells[0].text + " ") {
    if (c != ' ') {
      word += c;
    } else if (const BenchColumn* column = bench_column(word); column && column->name == word) {
      throw UserError(header.place, "columns are set apart by blanks. Separate them by commas or tabs.");
    } else {
      word.clear();
    }
  }
}

/// Titles in the first line, numbers below all of them: a column for each group.
void refuse_column_for_each_group(const std::vector<const TableLine*>& lines) {
  if (lines.size() < 2 || lines[0]->cells.size() < 2) return;
  const auto all_numbers = [](const TableLine* line) {
    return std::all_of(line->cells.begin(), line->cells.end(), [](const TableCell& cell) {
      return cell.text.empty() || read_number(cell.text, DecimalMark::point).value;
    });
  };
  if (all_numbers(lines[0]) || !all_numbers(lines[1])) return;
  throw UserError(
      lines[0]->place,
      "no column is named 'strength_MPa' or 'load_N'. If each column is a group of specimens, write them "
      "below each other instead: a column 'group' with the names and a column 'strength_MPa'.");
}

void refuse_misspelt_titles(const TableLine& header) {
  for (const TableCell& cell : header.cells)
    if (!cell.text.empty() && !bench_column(cell.text) && !nearly_bench_column(cell.text).empty())
      throw UserError(cell.place, fmt::format("unknown column '{}'; did you mean '{}'?", shortened(cell.text),
                                              nearly_bench_column(cell.text)));
}

}  // namespace

void explain_missing_header(const DelimitedText& table, const std::string& file) {
  std::vector<const TableLine*> lines;
  for (const TableLine& line : table.lines)
    if (!line.begins_with_hash) lines.push_back(&line);
  if (lines.empty())
    throw UserError(Place{file}, fmt::format("there are no specimens in this file. {}", what_is_needed));
  const TableLine& header = likeliest_header(lines);
  refuse_table_on_its_side(lines);
  refuse_columns_by_blanks(header);
  refuse_misspelt_titles(header);
  refuse_column_for_each_group(lines);
  throw UserError(header.place, fmt::format("no line names the columns. {} Columns that are known: {}.",
                                            what_is_needed, fmt::join(bench_column_names(), ", ")));
}

}  // namespace crownproof
