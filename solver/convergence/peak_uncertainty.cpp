// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/convergence/peak_uncertainty.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace crownproof {
namespace {

constexpr double safety_three_meshes = 1.25;  // Roache: three meshes, order observed
constexpr double safety_two_meshes = 3.0;     // Roache: two meshes, order assumed

/// (v3 - v2)/(v2 - v1) of an exact sequence of order p; rises with p. At p = 0: the limit of the quotient.
double increment_ratio(double order, double r21, double r32) {
  if (std::abs(order) < 1e-9) return std::log(r32) / std::log(r21);
  return std::expm1(order * std::log(r32)) / -std::expm1(-order * std::log(r21));
}

double observed_order(double wanted_ratio, double r21, double r32) {
  double low = -6, high = 12;
  for (int step = 0; step < 80; ++step) {
    const double middle = 0.5 * (low + high);
    (increment_ratio(middle, r21, r32) < wanted_ratio ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// The last passes, fine to coarse, that differ enough in cell size from the one before.
std::vector<PassValue> telling_passes(const std::vector<PassValue>& passes, double smallest_ratio) {
  std::vector<PassValue> kept;
  for (auto pass = passes.rbegin(); pass != passes.rend() && kept.size() < 3; ++pass)
    if (kept.empty() || pass->cell_size_mm >= smallest_ratio * kept.back().cell_size_mm)
      kept.push_back(*pass);
  return kept;
}

PeakUncertainty with_band(Settling settling, double value, double half_width) {
  PeakUncertainty result;
  result.settling = settling;
  result.value = result.extrapolated = value;
  result.low = value - half_width;
  result.high = value + half_width;
  return result;
}

/// `seen`: fine, coarse.
PeakUncertainty from_two(const std::vector<PassValue>& seen, const SettlingRules& rules) {
  const double r = seen[1].cell_size_mm / seen[0].cell_size_mm;
  const double step = std::abs(seen[1].value - seen[0].value);
  return with_band(Settling::two_passes, seen[0].value,
                   safety_two_meshes * step / (std::pow(r, rules.assumed_order) - 1));
}

/// Three values that move one way, fine to coarse; the band is at least `floor`.
PeakUncertainty one_way(const std::vector<PassValue>& seen, double floor, const SettlingRules& rules) {
  const double value = seen[0].value, step_fine = seen[1].value - value;
  const double r21 = seen[1].cell_size_mm / seen[0].cell_size_mm;
  const Richardson picture = richardson(seen[2], seen[1], seen[0]);
  if (picture.order < rules.lowest_order && std::abs(step_fine) > rules.negligible * std::abs(value)) {
    PeakUncertainty unsettled =
        with_band(Settling::does_not_settle, value,
                  std::max(std::abs(step_fine), std::abs(seen[2].value - seen[1].value)));
    unsettled.order = picture.order;
    return unsettled;
  }
  const double order = std::clamp(picture.order, rules.lowest_order, rules.highest_order);
  const double to_limit = step_fine / (std::pow(r21, order) - 1);
  PeakUncertainty result =
      with_band(Settling::settles, value,
                std::max({floor, safety_three_meshes * std::abs(to_limit), std::abs(step_fine)}));
  result.order = picture.order;
  result.extrapolated = value - to_limit;
  return result;
}

/// `seen`: fine, middle, coarse.
PeakUncertainty from_three(const std::vector<PassValue>& seen, const SettlingRules& rules) {
  const double value = seen[0].value;
  const double step_fine = seen[1].value - value, step_coarse = seen[2].value - seen[1].value;
  const double largest_step = std::max(std::abs(step_fine), std::abs(step_coarse));
  const bool negligible = largest_step <= rules.negligible * std::abs(value);
  // Small steps that all go one way may still have far to go; within the noise of meshes they tell no order.
  const bool creeps = step_fine * step_coarse > 0 && std::abs(step_fine) > rules.mesh_noise * std::abs(value);
  if (negligible && !creeps) return with_band(Settling::settles, value, safety_three_meshes * largest_step);
  const double r21 = seen[1].cell_size_mm / seen[0].cell_size_mm;
  const double r32 = seen[2].cell_size_mm / seen[1].cell_size_mm;
  // What the coarser step alone promises at the best order theory allows: keeps a lucky small last step
  // honest.
  const double floor = safety_three_meshes * std::abs(step_coarse) /
                       ((std::pow(r32, rules.highest_order) - 1) * std::pow(r21, rules.highest_order));
  if (step_fine * step_coarse <= 0) {
    const bool shrinks = std::abs(step_fine) < std::abs(step_coarse);
    const double swing = shrinks ? std::max(std::abs(step_fine), 0.5 * std::abs(step_coarse)) : largest_step;
    return with_band(Settling::oscillates, value, std::max(floor, swing));
  }
  return one_way(seen, floor, rules);
}

}  // namespace

Richardson richardson(const PassValue& coarse, const PassValue& middle, const PassValue& fine) {
  const double r21 = middle.cell_size_mm / fine.cell_size_mm, r32 = coarse.cell_size_mm / middle.cell_size_mm;
  assert(r21 > 1 && r32 > 1);
  const double ratio = (coarse.value - middle.value) / (middle.value - fine.value);
  assert(ratio > 0);
  Richardson result;
  result.order = observed_order(ratio, r21, r32);
  const double growth = std::pow(r21, result.order);
  result.extrapolated = (growth * fine.value - middle.value) / (growth - 1);
  const double relative_fine = std::abs((middle.value - fine.value) / fine.value);
  const double relative_coarse = std::abs((coarse.value - middle.value) / middle.value);
  result.gci_fine = safety_three_meshes * relative_fine / (growth - 1);
  result.gci_coarse = safety_three_meshes * relative_coarse / (std::pow(r32, result.order) - 1);
  return result;
}

PeakUncertainty peak_uncertainty(const std::vector<PassValue>& passes, const SettlingRules& rules) {
  const std::vector<PassValue> seen = telling_passes(passes, rules.smallest_ratio);
  if (seen.empty()) return {};
  PeakUncertainty result = seen.size() == 3   ? from_three(seen, rules)
                           : seen.size() == 2 ? from_two(seen, rules)
                                              : with_band(Settling::one_pass, seen[0].value, 0);
  result.refined_by = seen.back().cell_size_mm / seen.front().cell_size_mm;
  return result;
}

}  // namespace crownproof
