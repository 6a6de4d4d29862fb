// SPDX-License-Identifier: AGPL-3.0-or-later
// The command `crownproof bench`: bench tests in, statistics, a probability plot and a material file out.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "io/bench/bench_analysis.hpp"

namespace CLI {
class App;
}

namespace crownproof {

struct BenchOptions {
  std::filesystem::path file;
  std::filesystem::path output;  ///< empty: terminal only
  bool force = false;
  std::string name = "tested_ceramic";  ///< of the material
  std::string like;    ///< library material that gives the stiffness; empty: no material file
  std::string group;   ///< in-layer (or only) group; empty: the first
  std::string across;  ///< group measured across the layers; empty: none
  std::string flaw;    ///< whose strength the material gets; empty: all flaws together
  FlawKind flaws = FlawKind::volume;
  bool flaw_populations = false;           ///< carry each flaw of the group over by itself
  std::vector<std::string> surface_flaws;  ///< those of them that lie at the surface
  int min_specimens = specimens_for_material;
};

CLI::App* add_bench(CLI::App& app, BenchOptions& options);
int bench_command(const BenchOptions& options);

}  // namespace crownproof
