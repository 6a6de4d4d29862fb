// SPDX-License-Identifier: AGPL-3.0-or-later
// What bench tests say, in text: fits, bounds, comparisons, warnings; a probability plot (SVG); a material
// file that a case can name.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/bench/bench_analysis.hpp"
#include "io/materials/material_data.hpp"

namespace crownproof {

/// Tables and sentences for the terminal.
std::string bench_report(const BenchFindings& findings);

/// The same of a table and its fits.
std::string bench_report(const BenchFile& bench, const std::vector<BenchGroupResult>& groups);

/// Weibull probability plot of all groups with their fitted lines, bounds and suspended specimens.
std::string bench_plot_svg(const std::vector<BenchGroupResult>& groups);

/// Why a group cannot be the source of a material for a crown, or nothing if it can. `at_least`: specimens.
std::optional<std::string> why_no_material(const BenchGroupResult& group,
                                           int at_least = specimens_for_material);

/// A flaw of a group that becomes a population of the material.
struct BenchFlaw {
  std::string name;
  FlawKind kind = FlawKind::volume;
  BenchGroupResult result;  ///< of the group, specimens broken by other flaws as suspended
};

/// What a material is made of besides the tests.
struct BenchMaterialRequest {
  std::string name;
  std::string source;  ///< the table
  FlawKind flaws = FlawKind::volume;
  std::string flaw;                         ///< the flaw whose fit is meant; empty: all
  int at_least = specimens_for_material;    ///< specimens
  std::vector<BenchFlaw> populations = {};  ///< flaws of `in_layer` to be carried over one by one; or none
};

/// A materials file with one material made from `like` (stiffness, fatigue) and the strength of `in_layer`,
/// and for a layered material that of `across` (may be null). Throws UserError with why_no_material.
std::string bench_material_yaml(const BenchMaterialRequest& request, const MaterialData& like,
                                const BenchGroupResult& in_layer, const BenchGroupResult* across);

}  // namespace crownproof
