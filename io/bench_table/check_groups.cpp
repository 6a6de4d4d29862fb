// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/check_groups.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

#include "io/bench_table/unusual_strengths.hpp"

namespace crownproof {
namespace {

/// Sizes of one group may differ so much (largest to smallest; test standards allow 1.0 to 1.4 mm of
/// thickness in one set of bars, ISO 6872 from memory) before their mean is a specimen that never existed,
/// and so much before it is told.
constexpr double most_ratio = 1.5, told_ratio = 1.2;

std::size_t column_index(const BenchTable& table, const std::string& name) {
  std::size_t i = 0;
  while (i < table.columns.size() && !(table.columns[i].column && table.columns[i].column->name == name)) ++i;
  return i;
}

/// The place of a cell, or of its line where the column is not there.
Place place_of(const BenchTable& table, std::size_t line, const std::string& column) {
  const std::size_t i = column_index(table, column);
  return i < table.columns.size() ? table.lines[line].cells[i].place : table.lines[line].place;
}

/// Small letters without blanks, hyphens and underscores.
std::string skeleton(const std::string& name) {
  std::string plain = in_small_letters(name);
  std::erase_if(plain, [](char c) { return c == ' ' || c == '-' || c == '_'; });
  return plain;
}

/// Names that differ only in letter case or kinds of blank are one name misspelt.
void refuse_look_alikes(const BenchTable& table, const std::vector<BenchRow>& rows, const std::string& what) {
  std::map<std::string, std::size_t> seen;
  const auto name_of = [&](std::size_t i) { return what == "group" ? rows[i].group : rows[i].flaw; };
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (name_of(i).empty()) continue;
    const std::size_t first = seen.emplace(skeleton(name_of(i)), i).first->second;
    if (name_of(first) != name_of(i))
      throw UserError(
          place_of(table, i, what),
          fmt::format("the {} '{}' differs from '{}' (line {}) only in letter case, blanks or hyphens. Write "
                      "both alike, or names that differ more.",
                      what, name_of(i), name_of(first), rows[first].place.line));
  }
}

/// Row numbers of each group, in order of appearance.
std::vector<std::vector<std::size_t>> rows_by_group(const std::vector<BenchRow>& rows) {
  std::vector<std::vector<std::size_t>> groups;
  std::map<std::string, std::size_t> number;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto [at, is_new] = number.emplace(rows[i].group, groups.size());
    if (is_new) groups.emplace_back();
    groups[at->second].push_back(i);
  }
  return groups;
}

void refuse_too_many(const BenchTable& table, std::size_t n_groups) {
  if (n_groups <= most_groups) return;
  const std::size_t column = column_index(table, "group");
  throw UserError(
      table.columns[column].title.place,
      fmt::format("there are {} groups, at most {} are compared. If '{}' numbers the specimens, name it "
                  "'specimen'; otherwise make a table for each set of groups that belongs together.",
                  n_groups, most_groups, table.columns[column].title.text));
}

/// One test for all specimens of a group, or none.
void refuse_mixed_tests(const BenchTable& table, const std::vector<BenchRow>& rows,
                        const std::vector<std::size_t>& group) {
  const BenchRow& first = rows[group[0]];
  for (const std::size_t i : group) {
    if (first.specimen.has_value() != rows[i].specimen.has_value())
      throw UserError(
          place_of(table, first.specimen ? i : group[0], "test"),
          fmt::format(
              "'test' is empty here, but not in line {} of the same group. Fill it in, with the sizes, "
              "in every line of the group.",
              rows[first.specimen ? group[0] : i].place.line));
    if (first.specimen && first.specimen->test != rows[i].specimen->test)
      throw UserError(
          place_of(table, i, "test"),
          fmt::format("group '{}' holds specimens of {} here and of {} in line {}. They stress different "
                      "volumes, so one fit describes neither: give each test a group of its own.",
                      first.group, bench_test_name(rows[i].specimen->test),
                      bench_test_name(first.specimen->test), first.place.line));
  }
}

/// The rows of a group with the smallest and the largest value of a size.
struct SizeRange {
  std::size_t low, high;
  double ratio;
};

SizeRange range_of(const std::vector<BenchRow>& rows, const std::vector<std::size_t>& group,
                   double BenchSpecimen::*size) {
  const auto [low, high] = std::minmax_element(group.begin(), group.end(), [&](std::size_t a, std::size_t b) {
    return (*rows[a].specimen).*size < (*rows[b].specimen).*size;
  });
  return {*low, *high, (*rows[*high].specimen).*size / (*rows[*low].specimen).*size};
}

/// The size that is farther from the middle one of its group.
std::size_t odd_one(const std::vector<BenchRow>& rows, const std::vector<std::size_t>& group,
                    double BenchSpecimen::*size, const SizeRange& range) {
  std::vector<double> values;
  values.reserve(group.size());
  for (const std::size_t i : group) values.push_back((*rows[i].specimen).*size);
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2),
                   values.end());
  const double middle = values[values.size() / 2];
  return (*rows[range.high].specimen).*size * (*rows[range.low].specimen).*size > middle * middle ? range.high
                                                                                                  : range.low;
}

[[noreturn]] void refuse_sizes(const BenchTable& table, const std::vector<BenchRow>& rows, std::size_t odd,
                               std::size_t other, const BenchColumn& column) {
  throw UserError(
      place_of(table, odd, column.name),
      fmt::format(
          "'{}' is {:g} here and {:g} in line {} of the same group '{}'. Larger specimens are weaker, so "
          "one fit describes neither, and their mean is a specimen that never existed. Correct the "
          "size, or give each size a group of its own: groups are compared.",
          column.name, (*rows[odd].specimen).*column.size, (*rows[other].specimen).*column.size,
          rows[other].place.line, rows[odd].group));
}

std::vector<Remark> check_sizes(const BenchTable& table, const std::vector<BenchRow>& rows,
                                const std::vector<std::size_t>& group) {
  std::vector<Remark> remarks;
  const std::vector<std::string> needed = needed_sizes(rows[group[0]].specimen->test);
  for (const BenchColumn& column : bench_columns()) {
    const bool matters = std::find(needed.begin(), needed.end(), column.name) != needed.end();
    if (!matters || column.dimension != Dimension::length) continue;
    const SizeRange range = range_of(rows, group, column.size);
    if (range.ratio > most_ratio) {
      const std::size_t odd = odd_one(rows, group, column.size, range);
      refuse_sizes(table, rows, odd, odd == range.high ? range.low : range.high, column);
    }
    if (range.ratio > told_ratio)
      remarks.push_back(
          {fmt::format("Group '{}': '{}' differs from {:g} (line {}) to {:g} (line {}); each strength is of "
                       "its own size, the effective volume of the mean one",
                       rows[group[0]].group, column.name, (*rows[range.low].specimen).*column.size,
                       rows[range.low].place.line, (*rows[range.high].specimen).*column.size,
                       rows[range.high].place.line),
           {}});
  }
  return remarks;
}

}  // namespace

std::vector<Remark> check_groups(const BenchTable& table, const std::vector<BenchRow>& rows) {
  refuse_look_alikes(table, rows, "group");
  refuse_look_alikes(table, rows, "flaw");
  const auto groups = rows_by_group(rows);
  refuse_too_many(table, groups.size());
  std::vector<Remark> remarks;
  for (const std::vector<std::size_t>& group : groups) {
    refuse_mixed_tests(table, rows, group);
    append(remarks, unusual_strengths(rows, group));
    if (rows[group[0]].specimen) append(remarks, check_sizes(table, rows, group));
  }
  return remarks;
}

}  // namespace crownproof
