// SPDX-License-Identifier: AGPL-3.0-or-later
#include <vector>

#include "io/record/run_record.hpp"
#include "io/tables/column.hpp"
#include "io/tables/tables.hpp"
#include "io/text/csv_text.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {
namespace {

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
  std::string text = csv_line(cells(
      variants.empty() ? none : variants.front().varied,
      [](const SummaryColumn& column) { return column.name; },
      [](const VariedValue& varied) { return varied.key; }));
  for (const VariantRecord& variant : variants)
    for (const BiteReport& bite : variant.report.bites)
      for (const ZonePeak& peak : bite.peaks)
        text += csv_line(cells(
            variant.varied,
            [&](const SummaryColumn& column) {
              return column.cell({variant, bite, peak});
            },
            [](const VariedValue& varied) { return varied.value; }));
  return text;
}

}  // namespace crownproof
