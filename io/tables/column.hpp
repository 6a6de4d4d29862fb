// SPDX-License-Identifier: AGPL-3.0-or-later
// A column of a table, declared once: its name with the unit, how its value is found in a row, and what it
// means. Header, rows, the page docs/results.md and the description in manifest.json all come from it.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace crownproof {

struct BiteReport;
struct VariantRecord;
struct ZonePeak;

/// One row of summary.csv: a zone of a bite of a variant. Keeps references.
struct SummaryRow {
  const VariantRecord& variant;
  const BiteReport& bite;
  const ZonePeak& peak;
};

/// A column of summary.csv.
struct SummaryColumn {
  std::string name;                                    ///< ends in its unit, if it has one
  std::string meaning;                                 ///< for docs/results.md and the manifest; Markdown
  std::function<std::string(const SummaryRow&)> cell;  ///< not yet quoted; empty: no such number
};

/// The columns of summary.csv in their order, without those of the keys that a study varies (which stand
/// after `variant`).
const std::vector<SummaryColumn>& summary_columns();

/// The table of these columns for docs/results.md (Markdown).
std::string summary_columns_page();

}  // namespace crownproof
