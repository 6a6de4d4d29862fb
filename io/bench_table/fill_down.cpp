// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/fill_down.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace crownproof {
namespace {

bool is_filled(const BenchTable& table, std::size_t line, std::size_t column) {
  return !table.lines[line].cells[column].text.empty();
}

/// Numbers of the lines in which the column is filled.
std::vector<std::size_t> filled_lines(const BenchTable& table, std::size_t column) {
  std::vector<std::size_t> lines;
  for (std::size_t i = 0; i < table.lines.size(); ++i)
    if (is_filled(table, i, column)) lines.push_back(i);
  return lines;
}

/// Copies each filled cell into the empty ones below it.
void fill(BenchTable& table, std::size_t column) {
  const std::string sentence =
      fmt::format("Empty cells of '{}' were filled from above, as merged cells leave them",
                  table.columns[column].title.text);
  for (std::size_t i = 1; i < table.lines.size(); ++i)
    if (!is_filled(table, i, column)) {
      table.lines[i].cells[column].text = table.lines[i - 1].cells[column].text;
      table.remarks.push_back({sentence, table.lines[i].cells[column].place});
    }
}

void fill_groups(BenchTable& table, std::size_t column) {
  const std::vector<std::size_t> filled = filled_lines(table, column);
  if (filled.size() == table.lines.size()) return;
  if (filled.empty()) {
    table.remarks.push_back({fmt::format("'{}' is empty throughout: all specimens are one group",
                                         table.columns[column].title.text),
                             {}});
    return;
  }
  std::set<std::string> names;
  for (const std::size_t i : filled) names.insert(table.lines[i].cells[column].text);
  if (filled.front() == 0 && names.size() == filled.size()) return fill(table, column);
  for (const TableLine& line : table.lines)
    if (line.cells[column].text.empty())
      throw UserError(
          line.cells[column].place,
          "the group is empty. Write its name in every line: of merged cells a table keeps only the "
          "first.");
}

/// Lines at which a group begins.
std::vector<std::size_t> group_starts(const BenchTable& table, std::optional<std::size_t> group) {
  std::vector<std::size_t> starts;
  for (std::size_t i = 0; i < table.lines.size(); ++i)
    if (i == 0 || (group && table.lines[i].cells[*group].text != table.lines[i - 1].cells[*group].text))
      starts.push_back(i);
  return starts;
}

std::optional<std::size_t> column_named(const BenchTable& table, const std::string& name) {
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    if (table.columns[i].column && table.columns[i].column->name == name) return i;
  return std::nullopt;
}

}  // namespace

BenchTable filled_down(BenchTable table) {
  const auto group = column_named(table, "group");
  if (group) fill_groups(table, *group);
  const std::vector<std::size_t> starts = group_starts(table, group);
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const BenchColumn* column = table.columns[i].column;
    if (!column || (column->name != "test" && (!column->size || column->name == "layer_tilt_deg"))) continue;
    const std::vector<std::size_t> filled = filled_lines(table, i);
    const bool merged = filled == starts || filled == std::vector<std::size_t>{0};
    if (merged && filled.size() < table.lines.size()) fill(table, i);
  }
  return table;
}

}  // namespace crownproof
