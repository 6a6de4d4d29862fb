// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/bench_header.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/bench_table/no_header.hpp"
#include "io/bench_table/table_lines.hpp"
#include "io/bench_table/titled_columns.hpp"

namespace crownproof {
namespace {

/// Before the header stand titles and notes, hardly ever more.
constexpr std::size_t lines_before_header = 30;

/// A line of the file, and whether its # is taken for the mark of a commented header.
struct HeaderLine {
  std::size_t index = 0, n_known = 0;
};

/// The cells of a header that was written behind "# ".
TableLine without_hash(TableLine line) {
  std::string& first = line.cells[0].text;
  first = first.substr(std::min(first.find_first_not_of("# "), first.size()));
  return line;
}

/// The line that names most columns, a title above it may name one; a comment only if no other line does.
std::optional<HeaderLine> header_of(const DelimitedText& table) {
  for (const bool hash : {false, true}) {
    std::optional<HeaderLine> best;
    for (std::size_t i = 0; i < std::min(table.lines.size(), lines_before_header); ++i) {
      const TableLine& line = table.lines[i];
      if (line.begins_with_hash != hash && line.cells[0].text != "#") continue;
      const std::size_t n = columns_named(hash ? without_hash(line) : line);
      if (n > (best ? best->n_known : 0)) best = HeaderLine{i, n};
    }
    if (best) return best;
  }
  return std::nullopt;
}

/// "sep=;" in the first line is a spreadsheet's own hint.
std::optional<char> told_separator(const std::string& text) {
  const std::string start = in_small_letters(text.substr(0, 5));
  if (!start.starts_with("sep=") || start.size() < 5) return std::nullopt;
  return start[4];
}

struct Split {
  char separator = ',';
  DelimitedText table;
  std::optional<HeaderLine> header;
};

/// The separator that makes the header name most columns; commas where none makes one.
Split split_best(const std::string& text, const std::string& file) {
  std::string candidates = ",;\t|";
  if (const auto told = told_separator(text)) candidates = *told;
  std::optional<Split> best;
  for (const char separator : candidates) {
    Split split{separator, split_table(text, file, separator), {}};
    split.header = header_of(split.table);
    const std::size_t n = split.header ? split.header->n_known : 0;
    if (!best || n > (best->header ? best->header->n_known : 0)) best = std::move(split);
  }
  return *best;
}

Remark separator_remark(char separator) {
  const std::string name = separator == ';'    ? "semicolons"
                           : separator == '\t' ? "tabs"
                                               : fmt::format("'{}'", separator);
  return {fmt::format("Columns are separated by {}", name), {}};
}

/// Lines above the header that are no comments.
std::vector<Remark> title_remarks(const Split& split) {
  std::vector<Remark> remarks;
  for (std::size_t i = 0; i < split.header->index; ++i) {
    const TableLine& line = split.table.lines[i];
    const bool hint = in_small_letters(line.cells[0].text).starts_with("sep=");
    if (!line.begins_with_hash && !hint)
      remarks.push_back({"Left out above the header: a line without the titles of columns", line.place});
  }
  return remarks;
}

}  // namespace

BenchTable bench_table(const std::string& text, const std::string& file) {
  Split split = split_best(text, file);
  if (split.table.open_quote)
    throw UserError(
        *split.table.open_quote,
        "a quotation mark is opened here and never closed. Close it at the end of the cell, or delete it.");
  if (!split.header) explain_missing_header(split.table, file);
  TableLine header = split.table.lines[split.header->index];
  // In a table of one column a comma separates nothing: it is a decimal comma.
  if (header.cells.size() == 1) split.table = split_table(text, file, '\0');
  BenchTable table;
  table.separator = split.separator;
  if (split.separator != ',' && header.cells.size() > 1)
    table.remarks.push_back(separator_remark(split.separator));
  for (Remark& remark : title_remarks(split)) table.remarks.push_back(std::move(remark));
  if (header.begins_with_hash && header.cells[0].text != "#") {
    header = without_hash(header);
    table.remarks.push_back({"The header stands behind #", header.place});
  }
  split.table.lines.erase(split.table.lines.begin(),
                          split.table.lines.begin() + static_cast<std::ptrdiff_t>(split.header->index) + 1);
  return with_lines(with_columns(std::move(table), header), std::move(split.table.lines), header);
}

}  // namespace crownproof
