// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/left_out_columns.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <string_view>

#include <fmt/format.h>

#include "io/bench_table/cell_words.hpp"
#include "io/text/nearest_key.hpp"
#include "io/text/number_text.hpp"

namespace crownproof {
namespace {

/// Digits behind a number, in a column without a title, are its decimals: cut off by a decimal comma.
void refuse_cut_decimals(const BenchTable& table, std::size_t column) {
  if (column == 0 || !table.columns[column - 1].column || !table.columns[column - 1].column->is_number)
    return;
  for (const TableLine& line : table.lines) {
    const std::string& text = line.cells[column].text;
    if (!text.empty() && text.find_first_not_of("0123456789") == std::string::npos)
      throw UserError(
          line.cells[column].place,
          fmt::format(
              "'{}' stands behind a number in a column without a title. If it is the decimals after a "
              "comma, write them with a point ({}.{}); otherwise give the column a title.",
              shortened(text), shortened(line.cells[column - 1].text), shortened(text)));
  }
}

/// Columns of trailing separators, or of a counter that nobody named.
std::vector<Remark> untitled(const BenchTable& table) {
  std::vector<Remark> remarks;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const bool filled = std::any_of(table.lines.begin(), table.lines.end(),
                                    [&](const TableLine& line) { return !line.cells[i].text.empty(); });
    if (!table.columns[i].title.text.empty() || !filled) continue;
    refuse_cut_decimals(table, i);
    remarks.push_back({fmt::format("Column {} has no title and was left out", i + 1), {}});
  }
  return remarks;
}

/// Words that repeat from line to line but tell no groups apart.
bool holds_notes(const std::string& title) {
  constexpr std::array<std::string_view, 14> titles{"date",     "day",      "time",    "operator", "observer",
                                                    "examiner", "remark",   "remarks", "note",     "notes",
                                                    "comment",  "comments", "file",    "machine"};
  const std::string words = column_title(title).words;
  return std::find(titles.begin(), titles.end(), words) != titles.end();
}

/// Words in every line, at least two and each in two lines on average.
bool may_tell_groups(const BenchTable& table, std::size_t column) {
  std::set<std::string> words;
  for (const TableLine& line : table.lines) {
    const std::string& text = line.cells[column].text;
    if (text.empty() || read_number(text, DecimalMark::point).value) return false;
    words.insert(text);
  }
  return words.size() > 1 && 2 * words.size() <= table.lines.size();
}

bool has_column(const BenchTable& table, const std::string& name) {
  return std::any_of(table.columns.begin(), table.columns.end(),
                     [&](const TitledColumn& c) { return c.column && c.column->name == name; });
}

void refuse_unnamed_ends(const BenchTable& table) {
  if (has_column(table, "end")) return;
  for (const TableLine& line : table.lines)
    for (std::size_t i = 0; i < table.columns.size(); ++i)
      if (!table.columns[i].column && is_end_word(line.cells[i].text))
        throw UserError(line.cells[i].place,
                        fmt::format("'{}' seems to say how the test ended, but no column is named 'end'. "
                                    "Give this column that title.",
                                    line.cells[i].text));
}

}  // namespace

std::vector<Remark> left_out_columns(const BenchTable& table) {
  refuse_unnamed_ends(table);
  std::vector<Remark> remarks = untitled(table);
  const bool grouped = has_column(table, "group");
  for (std::size_t i = 0; i < table.columns.size() && !grouped; ++i) {
    const TitledColumn& c = table.columns[i];
    if (!c.column && !c.title.text.empty() && !holds_notes(c.title.text) && may_tell_groups(table, i))
      remarks.push_back(
          {fmt::format("All specimens were taken as one group: if '{}' tells groups apart, name it 'group'",
                       shortened(c.title.text)),
           {}});
  }
  return remarks;
}

}  // namespace crownproof
