// SPDX-License-Identifier: AGPL-3.0-or-later
// The figures of a run as tables: summary.csv for a spreadsheet, summary.json for a program. Keys carry their
// units; docs/results.md lists them. The same case gives the same bytes: no times, no paths.
#pragma once

#include <span>
#include <string>

namespace crownproof {

struct VariantRecord;

/// Raised when a key of summary.json changes its meaning or goes.
inline constexpr int summary_schema_version = 3;

/// One row for each variant, bite and zone, after a row of column names (RFC 4180, UTF-8, '.' as decimal
/// point).
std::string summary_csv(std::span<const VariantRecord> variants);

/// Every figure of the results but the fields.
std::string summary_json(const std::string& title, std::span<const VariantRecord> variants);

}  // namespace crownproof
