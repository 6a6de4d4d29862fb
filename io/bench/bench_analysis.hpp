// SPDX-License-Identifier: AGPL-3.0-or-later
// What a table of bench tests gives, as data: every report, table and picture is written from this.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "io/bench/bench_file.hpp"
#include "solver/bench/compare_groups.hpp"
#include "solver/bench/weibull_bounds.hpp"
#include "solver/bench/weibull_goodness.hpp"

namespace crownproof {

/// One group, fitted if it can be.
struct BenchGroupResult {
  Group group;
  std::optional<WeibullFit> fit;
  std::optional<WeibullBounds> bounds;    ///< nothing for too few specimens
  std::optional<LowStrengthBounds> low;   ///< with `bounds`
  std::string why_not;                    ///< why there is no fit or no bounds
  std::optional<BenchSpecimen> specimen;  ///< mean sizes, if all rows of the group are of one test
  std::optional<GoodnessOfFit> goodness;  ///< from five specimens on, if two broke
};

/// How many specimens a group needs before it becomes a material (30 are customary, ISO 6872 asks for 15,
/// both from memory; below ten the bounds say hardly anything), and the fewest that can be asked for
/// knowingly.
inline constexpr int specimens_for_material = 10, fewest_specimens_for_material = 3;

/// The modulus a material gets: corrected for bias where it can be. The group must have a fit.
double material_modulus(const BenchGroupResult& group);

/// Effective volume (mm^3) or area (mm^2) of a group's specimen at its fitted modulus; nothing where it is
/// not known, or in compression.
std::optional<double> effective_size_of(const BenchGroupResult& group, FlawKind flaws);

/// The fits of all groups, in order of appearance. `flaws`: where fracture starts, for the sizes that groups
/// are scaled by.
std::vector<BenchGroupResult> analyse_bench(const BenchFile& bench, FlawKind flaws = FlawKind::volume);

/// The same of the specimens broken by one flaw, all others as suspended. Throws UserError if no specimen
/// names this flaw.
std::vector<BenchGroupResult> analyse_flaw(const BenchFile& bench, const std::string& flaw, FlawKind flaws);

/// Everything that reports are written from.
struct BenchFindings {
  BenchFile bench;
  std::vector<BenchGroupResult> groups;
  std::map<std::string, CompetingFit> flaws;  ///< by name, over all groups; empty if no flaw is named
  std::optional<Comparison> comparison;       ///< of two groups or more
  int at_least = specimens_for_material;      ///< specimens before a group becomes a material
};

BenchFindings bench_findings(BenchFile bench, std::vector<BenchGroupResult> groups);

}  // namespace crownproof
