// SPDX-License-Identifier: AGPL-3.0-or-later
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/record/run_record.hpp"
#include "io/tables/column.hpp"
#include "io/tables/tables.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {
namespace {

/// Quoted where RFC 4180 asks for it.
std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string result = "\"";
  for (const char c : text) result += c == '"' ? std::string("\"\"") : std::string(1, c);
  return result + "\"";
}

std::string line(const std::vector<std::string>& cells) {
  std::vector<std::string> all;
  all.reserve(cells.size());
  for (const std::string& cell : cells) all.push_back(quoted(cell));
  return fmt::format("{}\r\n", fmt::join(all, ","));
}

/// One cell for each column; those of the varied keys follow the first.
template <class CellOf, class VariedOf>
std::vector<std::string> cells(const std::vector<VariedValue>& varied, const CellOf& cell_of,
                               const VariedOf& varied_of) {
  std::vector<std::string> all;
  for (const SummaryColumn& column : summary_columns()) {
    all.push_back(cell_of(column));
    if (all.size() > 1) continue;
    for (const VariedValue& value : varied) all.push_back(varied_of(value));
  }
  return all;
}

}  // namespace

std::string summary_csv(std::span<const VariantRecord> variants) {
  const std::vector<VariedValue> none;
  std::string text = line(cells(
      variants.empty() ? none : variants.front().varied,
      [](const SummaryColumn& column) { return column.name; },
      [](const VariedValue& varied) { return varied.key; }));
  for (const VariantRecord& variant : variants)
    for (const BiteReport& bite : variant.report.bites)
      for (const ZonePeak& peak : bite.peaks)
        text += line(cells(
            variant.varied,
            [&](const SummaryColumn& column) {
              return column.cell({variant, bite, peak});
            },
            [](const VariedValue& varied) { return varied.value; }));
  return text;
}

}  // namespace crownproof
