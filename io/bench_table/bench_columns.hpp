// SPDX-License-Identifier: AGPL-3.0-or-later
// The columns of a bench table, and the titles people give them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/text/units.hpp"
#include "solver/bench/bench_specimen.hpp"

namespace crownproof {

/// A column that is read.
struct BenchColumn {
  std::string name;  ///< as it should be written, unit included
  Dimension dimension = Dimension::none;
  bool is_number = false;
  double BenchSpecimen::*size = nullptr;  ///< the size it holds, if it holds one
  std::vector<std::string> words = {};    ///< other titles in small letters, without unit
};

const std::vector<BenchColumn>& bench_columns();

/// Names of all columns, for messages.
std::vector<std::string> bench_column_names();

/// A title taken apart: "Fracture load [kN]" is "fracture load" in kN.
struct ColumnTitle {
  std::string words;         ///< small letters, single blanks
  std::optional<Unit> unit;  ///< if one is written
};
ColumnTitle column_title(const std::string& text);

/// The column a title stands for, or null. A column with a unit is found without it too.
const BenchColumn* bench_column(const std::string& title);

/// The column that a title nearly names, or "".
std::string nearly_bench_column(const std::string& title);

/// Whether a title seems to say how the tests ended ("censored", "status"), so that leaving it out would make
/// whole specimens broken ones.
bool may_tell_the_end(const std::string& title);

/// Whether a title seems to say how many specimens a line stands for ("count", "frequency").
bool may_tell_how_many(const std::string& title);

/// Whether a title seems to number the specimens.
bool numbers_specimens(const std::string& title);

}  // namespace crownproof
