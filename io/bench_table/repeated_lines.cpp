// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/repeated_lines.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string_view>

#include <fmt/format.h>

namespace crownproof {
namespace {

/// So many lines in a row that repeat others in their order were pasted twice.
constexpr std::size_t shortest_block = 3;

/// Longer blocks are told in pieces, so that a long table is looked through quickly.
constexpr std::size_t longest_block = 1000;

std::string whole_line(const TableLine& line) {
  std::string text;
  for (const TableCell& cell : line.cells) text += cell.text + '\n';
  return text;
}

/// How many lines from `at` on are those from `earlier` on, without running into themselves.
std::size_t run_length(const std::vector<std::string>& lines, std::size_t earlier, std::size_t at) {
  std::size_t n = 0;
  while (n < longest_block && at + n < lines.size() && earlier + n < at &&
         lines[earlier + n] == lines[at + n])
    ++n;
  return n;
}

/// Equal lines of suspended specimens, or of one value over and over, prove nothing.
bool says_something(const std::vector<std::string>& lines, const std::vector<BenchRow>& rows, std::size_t at,
                    std::size_t n) {
  std::set<std::string_view> different;
  for (std::size_t i = at; i < at + n && different.size() < shortest_block; ++i) different.insert(lines[i]);
  const bool any_broken = std::any_of(rows.begin() + static_cast<std::ptrdiff_t>(at),
                                      rows.begin() + static_cast<std::ptrdiff_t>(at + n),
                                      [](const BenchRow& row) { return row.end == BenchEnd::broken; });
  return different.size() >= shortest_block && any_broken;
}

/// Where a line was seen first and last; a block that was pasted begins at one of them.
struct FirstAndLast {
  std::size_t first, last;
};

std::vector<std::size_t> first_and_last(const std::map<std::string, FirstAndLast>& seen,
                                        const std::string& line) {
  const auto found = seen.find(line);
  if (found == seen.end()) return {};
  return {found->second.first, found->second.last};
}

std::vector<Remark> repeated_blocks(const BenchTable& table, const std::vector<BenchRow>& rows) {
  std::vector<std::string> lines;
  for (const TableLine& line : table.lines) lines.push_back(whole_line(line));
  std::map<std::string, FirstAndLast> seen;
  std::vector<Remark> remarks;
  for (std::size_t i = 0; i < lines.size();) {
    std::size_t longest = 0, from = 0;
    // Within a run of equal lines no block begins.
    const bool again = i > 0 && lines[i] == lines[i - 1];
    const std::vector<std::size_t> before = first_and_last(seen, lines[i]);
    for (const std::size_t earlier : before)
      if (const std::size_t n = again ? 0 : run_length(lines, earlier, i); n > longest)
        longest = n, from = earlier;
    const bool block = longest >= shortest_block && says_something(lines, rows, i, longest);
    if (block)
      remarks.push_back(
          {fmt::format("Lines {} to {} repeat lines {} to {} word for word and count as further specimens: "
                       "delete them if they were pasted twice",
                       rows[i].place.line, rows[i + longest - 1].place.line, rows[from].place.line,
                       rows[from + longest - 1].place.line),
           {}});
    else if (!before.empty() && rows[i].end == BenchEnd::broken)
      remarks.push_back(
          {"A line repeats an earlier one word for word and counts as a further specimen: check that it was "
           "not entered twice",
           rows[i].place});
    for (std::size_t k = 0; k < (block ? longest : 1); ++k, ++i)
      seen.emplace(lines[i], FirstAndLast{i, i}).first->second.last = i;
  }
  return remarks;
}

/// The same number of a specimen twice in one group.
std::vector<Remark> repeated_numbers(const BenchTable& table, const std::vector<BenchRow>& rows) {
  std::vector<Remark> remarks;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const TitledColumn& column = table.columns[c];
    if (column.column || !numbers_specimens(column.title.text)) continue;
    std::set<std::string> seen;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const std::string& number = table.lines[i].cells[c].text;
      if (!number.empty() && !seen.insert(rows[i].group + '\n' + number).second)
        remarks.push_back(
            {fmt::format("A number in '{}' was there before in the same group and counts as a further "
                         "specimen: check that it is not the same one",
                         column.title.text),
             table.lines[i].cells[c].place});
    }
  }
  return remarks;
}

}  // namespace

std::vector<Remark> repeated_lines(const BenchTable& table, const std::vector<BenchRow>& rows) {
  std::vector<Remark> remarks = repeated_blocks(table, rows);
  for (Remark& remark : repeated_numbers(table, rows)) remarks.push_back(std::move(remark));
  return remarks;
}

}  // namespace crownproof
