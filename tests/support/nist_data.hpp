// SPDX-License-Identifier: AGPL-3.0-or-later
// Reads the public-domain strength tables of tests/data/nist (origin and licence in its SOURCE.md).
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "solver/bench/weibull.hpp"

namespace crownproof::test {

/// Rows of a CSV file without its header, as numbers.
inline std::vector<std::vector<double>> read_numbers(const std::string& name) {
  std::ifstream file(std::string(SOURCE_DIR) + "/tests/data/nist/" + name);
  if (!file) throw std::runtime_error("cannot read " + name);
  std::vector<std::vector<double>> rows;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    rows.emplace_back();
    std::istringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');) rows.back().push_back(std::stod(cell));
  }
  return rows;
}

inline std::vector<Specimen> all_broken(const std::vector<double>& stresses) {
  std::vector<Specimen> specimens;
  for (const double s : stresses) specimens.push_back({s, true});
  return specimens;
}

/// Silicon nitride bars; batch 0 or treatment 0: all.
inline std::vector<Specimen> silicon_nitride(int batch = 0, int treatment = 0) {
  std::vector<Specimen> specimens;
  for (const auto& row : read_numbers("silicon_nitride_480_bars.csv"))
    if ((batch == 0 || row[13] == batch) && (treatment == 0 || row[9] == treatment))
      specimens.push_back({row[4], true});
  return specimens;
}

}  // namespace crownproof::test
