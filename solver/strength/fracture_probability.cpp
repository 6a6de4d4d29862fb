// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/fracture_probability.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "mesh/tet_mesh.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/effective_volume.hpp"
#include "solver/strength/flaw_populations.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/specimen_size.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/stress_field.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {
namespace {

/// Index of the zone with the most votes. What lies inside counts only where no surface zone has any: the
/// skin is thin, and a cell that touches it belongs to it.
int elected(std::array<int, n_zones> votes) {
  auto& inside = votes[static_cast<int>(Zone::interior)];
  auto& under = votes[static_cast<int>(Zone::under_contact)];
  const int within =
      under > inside ? static_cast<int>(Zone::under_contact) : static_cast<int>(Zone::interior);
  inside = under = 0;
  const auto most = std::max_element(votes.begin(), votes.end());
  return *most > 0 ? static_cast<int>(most - votes.begin()) : within;
}

template <typename Items, typename NodesOf>
std::vector<int> zone_labels(const Items& items, const NodesOf& nodes_of, std::span<const Zone> node_zone) {
  std::vector<int> labels;
  for (const auto& item : items) {
    std::array<int, n_zones> votes{};
    for (const int node : nodes_of(item)) ++votes[static_cast<int>(node_zone[node])];
    labels.push_back(elected(votes));
  }
  return labels;
}

/// Whether planes pressed shut and sliding make up most of the risk.
bool mostly_slides(const TetMesh& mesh, const StressField& field, const FlawPopulation& population,
                   EffectiveSizeRequest request, const EffectiveSize& all) {
  if (!population.sliding || !(all.size[0] > 0)) return false;
  request.moduli.resize(1);
  const EffectiveSize part = effective_size(mesh, field, population.sliding, request);
  return part.size[0] * std::pow(part.peak_MPa / all.peak_MPa, request.moduli[0]) > 0.5 * all.size[0];
}

PopulationRisk population_risk(const TetMesh& mesh, const StressField& field, int region,
                               const FlawPopulation& population, std::span<const Zone> node_zone,
                               int copies) {
  const Strength& strength = population.strength;
  EffectiveSizeRequest request{region, strength.flaws, population.moduli, {}, node_zone.empty() ? 1 : n_zones,
                               copies};
  if (!node_zone.empty())
    request.labels = strength.flaws == FlawKind::volume ? zone_labels_of_cells(mesh, node_zone)
                                                        : zone_labels_of_faces(mesh, node_zone);
  const EffectiveSize size = effective_size(mesh, field, population.measure, request);
  PopulationRisk risk;
  risk.mechanism = mostly_slides(mesh, field, population, request, size) ? Mechanism::slides_between_layers
                                                                         : population.mechanism;
  risk.flaws = strength.flaws;
  risk.characteristic_MPa = strength.characteristic_MPa;
  risk.modulus = population.moduli[0];
  risk.peak_MPa = size.peak_MPa;
  risk.effective_size = size.size[0];
  risk.reference_size = population.bench_sizes[0];
  risk.bench_share = population.bench_share;
  if (size.peak_MPa > no_tension_MPa)
    risk.risk = risk.bench_share * risk.effective_size / risk.reference_size *
                std::pow(size.peak_MPa / strength.characteristic_MPa, risk.modulus);
  risk.zone_share.assign(n_zones, 0.0);
  if (node_zone.empty()) risk.zone_share.back() = 1;
  if (!node_zone.empty() && risk.effective_size > 0)
    for (int z = 0; z < n_zones; ++z) risk.zone_share[z] = size.by_label[0][z] / risk.effective_size;
  if (strength.bounds) {
    risk.bounds = strength.bounds;
    risk.effective_size_at_bounds = {size.size[1], size.size[2]};
    risk.reference_size_at_bounds = {population.bench_sizes[1], population.bench_sizes[2]};
  }
  return risk;
}

double risk_at(const PopulationRisk& p, double load_factor) {
  return p.risk * std::pow(load_factor, p.modulus);
}

/// How far ln(risk) may lie below and above, from the bounds of ln s0 and ln m and their correlation: the
/// variance estimates are recovered from each bound (Zou & Donner 2008, Stat. Med. 27:1693), so lopsided
/// bounds stay lopsided.
struct Spread {
  double below = 0, above = 0;
};
Spread log_risk_spread(const PopulationRisk& p, double load_factor) {
  const StrengthBounds& b = *p.bounds;
  const double stress = load_factor * p.peak_MPa, log_risk = std::log(risk_at(p, load_factor));
  const auto at_modulus = [&](double size, double reference, double m) {
    return std::log(p.bench_share * size / reference) + m * std::log(stress / p.characteristic_MPa) -
           log_risk;
  };
  const double weaker = p.modulus * std::log(p.characteristic_MPa / b.characteristic_MPa.low);
  const double stronger = p.modulus * std::log(b.characteristic_MPa.high / p.characteristic_MPa);
  const double low_m =
      at_modulus(p.effective_size_at_bounds.low, p.reference_size_at_bounds.low, b.modulus.low);
  const double high_m =
      at_modulus(p.effective_size_at_bounds.high, p.reference_size_at_bounds.high, b.modulus.high);
  const double up = std::max({low_m, high_m, 0.0}), down = std::max({-low_m, -high_m, 0.0});
  // A lower s0 raises the risk; so does a lower m, if the stress is well below s0: then errors in step add.
  const double together = low_m > high_m ? b.correlation : -b.correlation;
  const auto combine = [&](double x, double y) {
    return std::sqrt(std::max(0.0, x * x + y * y + 2 * together * x * y));
  };
  return {combine(stronger, down), combine(weaker, up)};
}

}  // namespace

std::vector<int> zone_labels_of_cells(const TetMesh& mesh, std::span<const Zone> node_zone) {
  return zone_labels(
      mesh.cells, [](const auto& cell) { return cell; }, node_zone);
}

std::vector<int> zone_labels_of_faces(const TetMesh& mesh, std::span<const Zone> node_zone) {
  return zone_labels(
      mesh.faces, [](const NamedFace& face) { return face.nodes; }, node_zone);
}

FractureProbability fracture_probability(const TetMesh& mesh, const StressField& field, int region,
                                         const std::vector<FlawPopulation>& populations,
                                         std::span<const Zone> node_zone, int copies) {
  std::vector<PopulationRisk> risks;
  for (const FlawPopulation& population : populations)
    risks.push_back(population_risk(mesh, field, region, population, node_zone, copies));
  return together(std::move(risks));
}

FractureProbability together(std::vector<PopulationRisk> populations) {
  FractureProbability result;
  result.populations = std::move(populations);
  const auto largest = std::max_element(result.populations.begin(), result.populations.end(),
                                        [](const auto& a, const auto& b) { return a.risk < b.risk; });
  result.governing = static_cast<int>(largest - result.populations.begin());
  const auto zone = std::max_element(largest->zone_share.begin(), largest->zone_share.end());
  result.zone = static_cast<Zone>(zone - largest->zone_share.begin());
  result.probability = probability_at_load(result, 1);
  result.bounds = probability_bounds_at_load(result, 1);
  return result;
}

FractureProbability fracture_within(const FractureProbability& whole,
                                    const std::function<bool(Zone)>& counts) {
  std::vector<PopulationRisk> populations = whole.populations;
  for (PopulationRisk& p : populations) {
    double share = 0;
    for (int z = 0; z < n_zones; ++z) {
      if (!counts(static_cast<Zone>(z))) p.zone_share[z] = 0;
      share += p.zone_share[z];
    }
    for (double& part : p.zone_share) part = share > 0 ? part / share : 0;
    p.risk *= share;
    p.effective_size *= share;
    p.effective_size_at_bounds = {p.effective_size_at_bounds.low * share,
                                  p.effective_size_at_bounds.high * share};
  }
  return together(std::move(populations));
}

double probability_at_load(const FractureProbability& fracture, double load_factor) {
  double risk = 0;
  for (const PopulationRisk& p : fracture.populations) risk += risk_at(p, load_factor);
  return -std::expm1(-risk);
}

std::optional<Interval> probability_bounds_at_load(const FractureProbability& fracture, double load_factor) {
  double risk = 0, below = 0, above = 0;
  for (const PopulationRisk& p : fracture.populations) {
    if (!p.bounds) return std::nullopt;
    if (!(p.risk > 0)) continue;
    const double here = risk_at(p, load_factor);
    const Spread spread = log_risk_spread(p, load_factor);
    risk += here;
    below += std::pow(here * -std::expm1(-spread.below), 2);
    above += std::pow(here * std::expm1(spread.above), 2);
  }
  return Interval{-std::expm1(-std::max(0.0, risk - std::sqrt(below))),
                  -std::expm1(-(risk + std::sqrt(above)))};
}

}  // namespace crownproof
