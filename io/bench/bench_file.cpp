// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench/bench_file.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/bench_table/bench_numbers.hpp"
#include "io/bench_table/check_groups.hpp"
#include "io/bench_table/fill_down.hpp"
#include "io/bench_table/repeated_lines.hpp"
#include "io/bench_table/unusual_sizes.hpp"
#include "io/text/table_encoding.hpp"
#include "io/text/text_encoding.hpp"

namespace crownproof {
namespace {

/// No series of bench tests has more, and repeated tests on the computer would take minutes.
constexpr std::size_t most_specimens = 10000;

/// Where only what did not break is marked, the rest broke; where breaking is marked too, an empty cell says
/// nothing.
std::vector<Remark> check_ends(const BenchTable& table, const std::vector<ReadRow>& rows) {
  const auto end = std::find_if(table.columns.begin(), table.columns.end(),
                                [](const TitledColumn& c) { return c.column && c.column->name == "end"; });
  if (end == table.columns.end()) return {};
  const auto broken = std::find_if(rows.begin(), rows.end(), [](const ReadRow& r) {
    return r.tells_end && r.row.end == BenchEnd::broken;
  });
  std::vector<Remark> remarks;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].tells_end) continue;
    const Place& place = table.lines[i].cells[static_cast<std::size_t>(end - table.columns.begin())].place;
    if (broken != rows.end())
      throw UserError(
          place,
          fmt::format("'end' is empty here, and 'broken' in line {}. Write 'broken', 'suspended' (it did "
                      "not break) or 'broken_otherwise'.",
                      broken->row.place.line));
    remarks.push_back({"Specimens without 'end' count as broken", place});
  }
  return remarks;
}

/// How far given strengths are from those of load and sizes.
std::vector<Remark> check_strengths(const std::vector<ReadRow>& rows) {
  double largest = 0;
  bool any = false;
  for (const ReadRow& r : rows)
    if (r.strength_difference) any = true, largest = std::max(largest, std::abs(*r.strength_difference));
  if (!any) return {};
  return {
      {fmt::format(
           "Strengths were computed from loads and sizes; those in 'strength_MPa' differ by at most {:.2g} %",
           100 * largest),
       {}}};
}

/// A line for each group, as in a table of means.
std::vector<Remark> check_numbers(const std::vector<BenchRow>& rows, std::size_t n_groups) {
  if (n_groups < 2 || n_groups < rows.size()) return {};
  return {{"Each group holds one specimen only: means of groups cannot be fitted; give each specimen a line",
           {}}};
}

}  // namespace

BenchFile parse_bench_text(const std::string& raw, const std::string& file) {
  const DecodedText decoded = decoded_table(raw, file);
  const BenchTable table = filled_down(bench_table(decoded.text, file));
  if (table.lines.empty())
    throw UserError(
        Place{file},
        "there are no specimens in this file. Write one in each line below the titles; lines that begin "
        "with # are comments.");
  if (table.lines.size() > most_specimens)
    throw UserError(
        table.lines[most_specimens].place,
        fmt::format("there are {} specimens, at most {} are read. Name the table of the specimens, not "
                    "a record of loads over time, or split it.",
                    table.lines.size(), most_specimens));
  const DecimalMark mark = decimal_mark(table);
  std::vector<Remark> remarks;
  if (!decoded.remark.empty()) remarks.push_back({decoded.remark, {}});
  append(remarks, table.remarks);
  if (mark == DecimalMark::comma) remarks.push_back({"Decimals are written with a comma", {}});
  std::vector<ReadRow> rows;
  BenchFile bench{file, {}};
  for (const TableLine& line : table.lines) {
    rows.push_back(read_bench_row(table, line, mark));
    append(remarks, rows.back().remarks);
    append(remarks, unusual_sizes(rows.back().row));
    bench.rows.push_back(rows.back().row);
  }
  append(remarks, check_ends(table, rows));
  append(remarks, check_strengths(rows));
  append(remarks, check_groups(table, bench.rows));
  append(remarks, repeated_lines(table, bench.rows));
  append(remarks, check_numbers(bench.rows, bench_group_names(bench).size()));
  bench.remarks = remark_sentences(remarks);
  return bench;
}

BenchFile read_bench_file(const std::filesystem::path& file) {
  return parse_bench_text(read_text_file(file, "table of specimens (CSV)"), file.string());
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
