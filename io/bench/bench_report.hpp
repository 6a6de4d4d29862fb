// SPDX-License-Identifier: AGPL-3.0-or-later
// What bench tests say: fits, bounds, comparisons, warnings in the terminal; a probability plot (SVG); a
// material file that a case can name.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/bench/bench_file.hpp"
#include "io/materials/material_data.hpp"
#include "solver/bench/weibull_bounds.hpp"

namespace crownproof {

/// One group, fitted if it can be.
struct BenchGroupResult {
  Group group;
  std::optional<WeibullFit> fit;
  std::optional<WeibullBounds> bounds;    ///< nothing for too few specimens
  std::string why_not;                    ///< why there is no fit or no bounds
  std::optional<BenchSpecimen> specimen;  ///< mean sizes, if all rows of the group are of one test
};

std::vector<BenchGroupResult> analyse_bench(const BenchFile& bench);

/// Tables and sentences for the terminal.
std::string bench_report(const BenchFile& bench, const std::vector<BenchGroupResult>& groups);

/// Weibull probability plot of all groups with their fitted lines.
std::string bench_plot_svg(const std::vector<BenchGroupResult>& groups);

/// Why a group cannot be the source of a material for a crown, or nothing if it can.
std::optional<std::string> why_no_material(const BenchGroupResult& group);

/// A materials file with one material made from `like` (stiffness, fatigue) and the strength of `in_layer`,
/// and for a layered material that of `across` (may be null). Throws UserError with why_no_material.
std::string bench_material_yaml(const std::string& name, const MaterialData& like, const std::string& source,
                                const BenchGroupResult& in_layer, const BenchGroupResult* across);

}  // namespace crownproof
