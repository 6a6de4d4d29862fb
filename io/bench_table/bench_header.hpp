// SPDX-License-Identifier: AGPL-3.0-or-later
// Where the header of a bench table is, and which column holds what.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/bench_table/bench_columns.hpp"
#include "io/bench_table/remark.hpp"
#include "io/text/delimited_text.hpp"

namespace crownproof {

/// A column of the file.
struct TitledColumn {
  TableCell title;
  const BenchColumn* column = nullptr;  ///< null: not read
  std::optional<Unit> unit;             ///< as the title or the line of units says
};

/// A table with its header understood.
struct BenchTable {
  char separator = ',';
  std::vector<TitledColumn> columns;
  std::vector<TableLine> lines;  ///< the specimens, as many cells each as there are columns
  std::vector<Remark> remarks;
};

/// Finds separator and header, leaves out titles, comments, repeated headers and a line of units. Throws
/// UserError: no header, titles that are unknown, doubled or without unit, lines with too few or too many
/// cells, specimens that would pass for comments.
BenchTable bench_table(const std::string& text, const std::string& file);

}  // namespace crownproof
