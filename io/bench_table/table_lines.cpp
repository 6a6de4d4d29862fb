// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/table_lines.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

#include "io/bench_table/left_out_columns.hpp"
#include "io/bench_table/titled_columns.hpp"
#include "io/text/nearest_key.hpp"
#include "io/text/number_text.hpp"

namespace crownproof {
namespace {

/// What a spreadsheet shows for a formula that failed; in a table of one column also ####.
bool is_error_value(const std::string& text, std::size_t n_columns) {
  constexpr std::array<std::string_view, 7> errors{"#n/a",   "#div/0!", "#ref!", "#value!",
                                                   "#name?", "#num!",   "#null!"};
  if (std::find(errors.begin(), errors.end(), in_small_letters(text)) != errors.end()) return true;
  return n_columns == 1 && text.size() > 1 && text[1] != ' ';
}

/// A specimen whose first cell begins with # (a spreadsheet's #N/A or ####, a group '#1') must not pass for a
/// comment.
void refuse_hidden_specimen(const TableLine& line, std::size_t n_columns) {
  const std::string& first = line.cells[0].text;
  const bool as_long = n_columns > 1 && line.cells.size() >= n_columns && first.size() > 1 && first[1] != ' ';
  if (!as_long && !is_error_value(first, n_columns)) return;
  throw UserError(
      line.place,
      fmt::format("this line begins with # and would pass for a comment, but has the columns of a "
                  "specimen. If '{}' is an error value of a spreadsheet, mend it there or delete "
                  "the line; a name needs another first letter; a comment needs a space after #.",
                  shortened(first)));
}

/// A comment that may have been a specimen: as many cells as titles, and a number among them.
std::vector<Remark> comment_remarks(const TableLine& line, std::size_t n_columns) {
  const bool number = std::any_of(line.cells.begin(), line.cells.end(), [](const TableCell& cell) {
    const std::size_t start = std::min(cell.text.find_first_not_of("# "), cell.text.size());
    return read_number(cell.text.substr(start), DecimalMark::point).value.has_value();
  });
  if (!number || line.cells.size() != n_columns) return {};
  return {{"Left out as a comment, though it has the columns of a specimen: a line that begins with #",
           line.place}};
}

bool same_cells(const TableLine& a, const TableLine& b) {
  return std::equal(a.cells.begin(), a.cells.end(), b.cells.begin(), b.cells.end(),
                    [](const TableCell& x, const TableCell& y) { return x.text == y.text; });
}

[[noreturn]] void refuse_long_line(const BenchTable& table, const TableLine& line) {
  const std::size_t n = line.cells.size(), n_columns = table.columns.size();
  const BenchColumn* first = table.columns[0].column;
  const bool numbered = n == n_columns + 1 && !(first && first->is_number) &&
                        read_number(line.cells[0].text, DecimalMark::point).value;
  const char* why =
      numbered
          ? "If the first cell numbers the lines, give that column a title in the first line ('specimen')."
          : "If a comma stands within a number, write decimals with a point and thousands without a mark "
            "(1229.5), or separate columns by semicolons; put text with a comma in quotation marks.";
  throw UserError(line.cells[n_columns].place,
                  fmt::format("this line has {} columns, the first line has {}. {}", n, n_columns, why));
}

/// As many cells as titles; what a trailing separator leaves is dropped.
TableLine of_full_length(const BenchTable& table, TableLine line) {
  const std::size_t n_columns = table.columns.size();
  while (line.cells.size() > n_columns && line.cells.back().text.empty()) line.cells.pop_back();
  const std::size_t n = line.cells.size();
  if (n > n_columns) refuse_long_line(table, line);
  if (n < n_columns)
    throw UserError(
        line.cells.back().place,
        fmt::format("this line has {} columns, the first line has {}. Fill in what is missing; a cell may be "
                    "empty, but its separator must be there; a note begins with # and a space.",
                    n, n_columns));
  return line;
}

/// A line below the header that holds units only: "", "", "mm", "(N)".
bool is_line_of_units(const TableLine& line) {
  bool any = false;
  for (const TableCell& cell : line.cells) {
    const ColumnTitle title = column_title("x " + cell.text);
    const bool no_unit = stands_for_nothing(cell.text) || cell.text == "[-]" || cell.text == "(-)";
    any = any || title.unit;
    if (!cell.text.empty() && !title.unit && !no_unit) return false;
  }
  return any;
}

void take_units(BenchTable& table, const TableLine& line) {
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    TitledColumn& c = table.columns[i];
    const auto unit = column_title("x " + line.cells[i].text).unit;
    if (!c.column || !unit) continue;
    const bool other = unit->dimension != c.column->dimension || (c.unit && c.unit->factor != unit->factor);
    if (other)
      throw UserError(line.cells[i].place,
                      fmt::format("the unit '{}' does not fit the column '{}'. Correct one of them.",
                                  line.cells[i].text, c.title.text));
    c.unit = unit;
  }
  table.remarks.push_back({"A line of units was read as such", line.place});
}

void refuse_without_unit(const BenchTable& table) {
  for (const TitledColumn& c : table.columns)
    if (c.column && c.column->dimension != Dimension::none && !c.unit)
      throw UserError(
          c.title.place,
          fmt::format("the column '{}' has no unit. Write it as '{}', or with a unit in brackets.",
                      c.title.text, c.column->name));
}

std::vector<Remark> conversion_remarks(const BenchTable& table) {
  std::vector<Remark> remarks;
  for (const TitledColumn& c : table.columns)
    if (c.column && c.unit && c.unit->factor != 1)
      remarks.push_back({fmt::format("Values of '{}' were multiplied by {:g} to {}", c.title.text,
                                     c.unit->factor, unit_inside(c.column->dimension)),
                         {}});
  return remarks;
}

}  // namespace

BenchTable with_lines(BenchTable table, std::vector<TableLine> lines, const TableLine& header) {
  bool first = true;
  for (TableLine& line : lines) {
    if (line.begins_with_hash) {
      refuse_hidden_specimen(line, header.cells.size());
      append(table.remarks, comment_remarks(line, header.cells.size()));
      continue;
    }
    if (same_cells(line, header)) {
      table.remarks.push_back({"Left out: the header once more", line.place});
      continue;
    }
    if (columns_named(line) > 0)
      throw UserError(line.place,
                      "a second table with other columns begins here. Give each table a file of its own.");
    TableLine full = of_full_length(table, std::move(line));
    if (first && is_line_of_units(full))
      take_units(table, full);
    else
      table.lines.push_back(std::move(full));
    first = false;
  }
  refuse_without_unit(table);
  append(table.remarks, left_out_columns(table));
  append(table.remarks, conversion_remarks(table));
  return table;
}

}  // namespace crownproof
