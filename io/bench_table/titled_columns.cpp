// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/titled_columns.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/text/nearest_key.hpp"
#include "io/text/number_text.hpp"

namespace crownproof {
namespace {

TitledColumn titled(const TableCell& title) {
  TitledColumn titled{title, bench_column(title.text), {}};
  if (titled.column) titled.unit = column_title(title.text).unit;
  return titled;
}

/// Whether the title is the column's own name, whatever its letters and unit.
bool own_name(const TitledColumn& c) {
  return column_title(c.title.text).words == column_title(c.column->name).words;
}

/// Of several titles for one column its own name counts.
void prefer_own_names(std::vector<TitledColumn>& columns) {
  std::vector<const BenchColumn*> named;
  for (const TitledColumn& c : columns)
    if (c.column && own_name(c)) named.push_back(c.column);
  for (TitledColumn& c : columns)
    if (c.column && !own_name(c) && std::find(named.begin(), named.end(), c.column) != named.end())
      c.column = nullptr;
}

/// A column that is there twice, or two titles of which either may be meant.
void refuse_doubled(const std::vector<TitledColumn>& columns) {
  for (std::size_t i = 0; i < columns.size(); ++i)
    for (std::size_t k = 0; k < i; ++k) {
      const TitledColumn &c = columns[i], &first = columns[k];
      if (!c.column || c.column != first.column) continue;
      if (own_name(c))
        throw UserError(c.title.place,
                        fmt::format("the column '{}' is there twice. Delete one, or give it another title.",
                                    c.column->name));
      throw UserError(
          c.title.place,
          fmt::format("the columns '{}' and '{}' may both be '{}'. Name the one that is meant '{}'.",
                      first.title.text, c.title.text, c.column->name, c.column->name));
    }
}

void refuse_other_unit(const TitledColumn& c) {
  if (!c.column || !c.unit || c.unit->dimension == c.column->dimension) return;
  throw UserError(c.title.place, fmt::format("the unit of '{}' does not fit. Write the column as '{}'.",
                                             c.title.text, c.column->name));
}

/// A column left out must not be one that was only misspelt, or that says how tests ended.
void refuse_risky_to_leave_out(const TitledColumn& c, bool has_end) {
  if (c.column || c.title.text.empty() || numbers_specimens(c.title.text)) return;
  if (const std::string near = nearly_bench_column(c.title.text); !near.empty())
    throw UserError(
        c.title.place,
        fmt::format("unknown column '{}'; did you mean '{}'? If it is something else, name it otherwise: "
                    "columns that are not needed are left out.",
                    shortened(c.title.text), near));
  if (may_tell_how_many(c.title.text))
    throw UserError(
        c.title.place,
        fmt::format("the column '{}' seems to say how many specimens a line stands for. Give each "
                    "specimen a line of its own and delete the column.",
                    c.title.text));
  if (!has_end && may_tell_the_end(c.title.text))
    throw UserError(c.title.place,
                    fmt::format("the column '{}' seems to say how the tests ended. Name it 'end' and write "
                                "'broken', 'suspended' or 'broken_otherwise' in each line, or delete it.",
                                c.title.text));
}

std::vector<Remark> remarks_of(const std::vector<TitledColumn>& columns) {
  std::vector<Remark> remarks;
  std::vector<std::string> left_out, renamed;
  for (const TitledColumn& c : columns) {
    if (!c.column && !c.title.text.empty()) left_out.push_back(fmt::format("'{}'", shortened(c.title.text)));
    if (c.column && c.title.text != c.column->name)
      renamed.push_back(fmt::format("'{}' as '{}'", shortened(c.title.text), c.column->name));
  }
  if (!renamed.empty())
    remarks.push_back({fmt::format("Titles were read: {}", fmt::join(renamed, ", ")), {}});
  if (!left_out.empty())
    remarks.push_back(
        {fmt::format("Left out, for no such column is needed: {}", fmt::join(left_out, ", ")), {}});
  return remarks;
}

}  // namespace

std::size_t columns_named(const TableLine& line) {
  std::size_t n = 0;
  bool measured = false;
  for (const TableCell& cell : line.cells) {
    if (read_number(cell.text, DecimalMark::point).value) return 0;
    const BenchColumn* column = bench_column(cell.text);
    n += column != nullptr;
    measured = measured || (column && (column->name == "load_N" || column->name == "strength_MPa"));
  }
  return measured ? n : 0;
}

BenchTable with_columns(BenchTable table, const TableLine& header) {
  for (const TableCell& title : header.cells) table.columns.push_back(titled(title));
  prefer_own_names(table.columns);
  refuse_doubled(table.columns);
  const bool has_end = std::any_of(table.columns.begin(), table.columns.end(),
                                   [](const TitledColumn& c) { return c.column && c.column->name == "end"; });
  for (const TitledColumn& c : table.columns) {
    refuse_other_unit(c);
    refuse_risky_to_leave_out(c, has_end);
  }
  for (Remark& remark : remarks_of(table.columns)) table.remarks.push_back(std::move(remark));
  return table;
}

}  // namespace crownproof
