// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/memory_need.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "mesh/shape/domain.hpp"
#include "mesh/volume/fill.hpp"
#include "solver/accuracy/refine.hpp"
#include "solver/model/model.hpp"

namespace crownproof {
namespace {

/// Fewer cells than these no case may ask for, nor do they see a crown.
constexpr int fewest_cells = 5000;

std::string remedy(const Model& model, int fit) {
  const std::string more =
      "free some memory, or raise the limit of the process (ulimit) or its control group";
  if (model.specimen) return fmt::format("Ask for fewer 'specimen: cells_through_thickness', {}.", more);
  if (fit < fewest_cells) return fmt::format("Not even the coarsest mesh would fit: {}.", more);
  const int round = fit / 1000 * 1000;
  // Refinement begins with a small mesh, whatever the budget, and stops where memory ends.
  if (model.accuracy.stress_percent > 0)
    return fmt::format("About {} cells would fit: ask for 'accuracy: max_cells: {}' at most, {}.", round,
                       std::max(20000, round), more);
  return fmt::format("About {} cells would fit: ask for 'accuracy: cells: {}', {}.", round, round, more);
}

std::string size_words(double GiB) {
  return GiB < 1 ? fmt::format("{:.0f} MiB", 1024 * GiB) : fmt::format("{:.1f} GiB", GiB);
}

std::string need(const Model& model, double cells) {
  return fmt::format("a mesh of about {:.0f} cells needs about {} of memory, and {} are there", cells,
                     size_words(predicted_memory_GiB(static_cast<int>(cells), fields_of(model))),
                     size_words(model.accuracy.available_memory_GiB));
}

}  // namespace

int fields_of(const Model& model) {
  return 4 * static_cast<int>(model.bites.size());
}

double asked_cells(const Model& model) {
  if (model.specimen) return 0;
  if (model.accuracy.cells > 0 && !(model.accuracy.stress_percent > 0)) return model.accuracy.cells;
  return estimate_cells(*model.domain, model.size);
}

int cells_that_fit(double memory_GiB, int fields) {
  const double fixed = predicted_memory_GiB(0, fields);
  const double of_million = predicted_memory_GiB(1000000, fields) - fixed;
  return static_cast<int>(std::clamp((memory_GiB - fixed) / of_million * 1e6, 0.0, 1e9));
}

void refuse_too_large(const Model& model, double cells) {
  const double there = model.accuracy.available_memory_GiB;
  if (!(there > 0) || !(cells > 0)) return;
  const int fit = cells_that_fit(there, fields_of(model));
  if (cells > fit)
    throw TooLittleMemory(fmt::format("Not computed: {}. {}", need(model, cells), remedy(model, fit)));
}

TooLittleMemory memory_ran_out(const Model& model, double cells) {
  constexpr double part = 0.7;  // what has just failed is no advice
  const double there = model.accuracy.available_memory_GiB;
  int fit = static_cast<int>(part * cells);
  if (there > 0) fit = std::min(fit, cells_that_fit(there, fields_of(model)));
  const std::string why = cells > 0 && there > 0 ? fmt::format(": {}", need(model, cells)) : "";
  return TooLittleMemory(fmt::format("Memory ran out{}. {}", why, remedy(model, fit)));
}

}  // namespace crownproof
