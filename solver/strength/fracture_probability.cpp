// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/fracture_probability.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/error.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/strength.hpp"
#include "solver/stress/principal.hpp"

namespace crownproof {
namespace {

template <typename Items, typename NodesOf>
std::vector<int> zone_labels(const Items& items, const NodesOf& nodes_of,
                             const std::vector<Zone>& node_zone) {
  std::vector<int> labels;
  for (const auto& item : items) {
    std::array<int, n_zones> votes{};
    for (const int node : nodes_of(item)) ++votes[static_cast<int>(node_zone[node])];
    votes[static_cast<int>(Zone::interior)] = 0;
    const auto most = std::max_element(votes.begin(), votes.end());
    labels.push_back(*most > 0 ? static_cast<int>(most - votes.begin()) : static_cast<int>(Zone::interior));
  }
  return labels;
}

/// Bounds of the modulus that can be computed with.
bool usable(const std::optional<StrengthBounds>& bounds) {
  return bounds && bounds->modulus.low > 0.1 && std::isfinite(bounds->modulus.high) &&
         bounds->characteristic_MPa.low > 0;
}

PopulationRisk population_risk(const TetMesh& mesh, const StressField& field, int region,
                               const FlawPopulation& population, const std::vector<Zone>& node_zone,
                               int copies) {
  const Strength& strength = population.strength;
  if (why_no_probability(strength))
    throw ModelError(
        "No probability of fracture follows from this strength. It takes a strength above zero with its "
        "Weibull modulus, and the bench specimen it was measured on, not in compression.");
  const double m = strength.weibull_modulus;
  EffectiveSizeRequest request{region, strength.flaws, {m}, {}, node_zone.empty() ? 1 : n_zones, copies};
  if (usable(strength.bounds)) {
    request.moduli.push_back(strength.bounds->modulus.low);
    request.moduli.push_back(strength.bounds->modulus.high);
  }
  if (!node_zone.empty())
    request.labels = strength.flaws == FlawKind::volume ? zone_labels_of_cells(mesh, node_zone)
                                                        : zone_labels_of_faces(mesh, node_zone);
  const EffectiveSize size = effective_size(mesh, field, population.measure, request);
  const auto bench_size = [&](double modulus) {
    return effective_size(*strength.specimen, modulus, strength.flaws);
  };
  PopulationRisk risk;
  risk.mechanism = population.mechanism;
  risk.flaws = strength.flaws;
  risk.characteristic_MPa = strength.characteristic_MPa;
  risk.modulus = m;
  risk.peak_MPa = size.peak_MPa;
  risk.effective_size = size.size[0];
  risk.reference_size = bench_size(m);
  risk.risk = size.peak_MPa > no_tension_MPa ? risk.effective_size / risk.reference_size *
                                                   std::pow(size.peak_MPa / strength.characteristic_MPa, m)
                                             : 0;
  risk.zone_share.assign(n_zones, 0.0);
  if (node_zone.empty()) risk.zone_share.back() = 1;
  if (!node_zone.empty() && risk.effective_size > 0)
    for (int z = 0; z < n_zones; ++z) risk.zone_share[z] = size.by_label[0][z] / risk.effective_size;
  if (usable(strength.bounds)) {
    risk.bounds = strength.bounds;
    risk.effective_size_at_bounds = {size.size[1], size.size[2]};
    risk.reference_size_at_bounds = {bench_size(request.moduli[1]), bench_size(request.moduli[2])};
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
    return std::log(size / reference) + m * std::log(stress / p.characteristic_MPa) - log_risk;
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

std::vector<int> zone_labels_of_cells(const TetMesh& mesh, const std::vector<Zone>& node_zone) {
  return zone_labels(
      mesh.cells, [](const auto& cell) { return cell; }, node_zone);
}

std::vector<int> zone_labels_of_faces(const TetMesh& mesh, const std::vector<Zone>& node_zone) {
  return zone_labels(
      mesh.faces, [](const NamedFace& face) { return face.nodes; }, node_zone);
}

std::optional<NoProbability> why_no_probability(const Strength& strength) {
  if (!(strength.weibull_modulus > 0)) return NoProbability::no_modulus;
  if (!(strength.characteristic_MPa > 0)) return NoProbability::no_strength;
  if (!strength.specimen) return NoProbability::no_specimen;
  if (strength.specimen->test == BenchTest::compression) return NoProbability::compressive;
  if (why_no_specimen(*strength.specimen)) return NoProbability::impossible_specimen;
  return std::nullopt;
}

std::vector<FlawPopulation> flaw_populations(const MaterialStrength& strength, bool layered,
                                             const Vec3& layer_normal, const MixedMode& mode) {
  if (!layered || !strength.across_layer)
    return {{Mechanism::breaks_across_body, principal_tensions(), strength.in_layer}};
  // Flaws of the body lie every way. Counting only tension within the layers would make a tension aslant to
  // them look harmless, and layers as strong as the body would not be as strong as a body without layers.
  const bool layers_weaker =
      strength.across_layer->characteristic_MPa <= strength.in_layer.characteristic_MPa;
  const StressMeasure body = layers_weaker ? principal_tensions() : in_layer_tensions(layer_normal);
  return {
      {Mechanism::breaks_across_body, body, strength.in_layer},
      {Mechanism::opens_between_layers, layer_plane_tensions(layer_normal, mode), *strength.across_layer}};
}

FractureProbability fracture_probability(const TetMesh& mesh, const StressField& field, int region,
                                         const std::vector<FlawPopulation>& populations,
                                         const std::vector<Zone>& node_zone, int copies) {
  FractureProbability result;
  for (const FlawPopulation& population : populations)
    result.populations.push_back(population_risk(mesh, field, region, population, node_zone, copies));
  const auto largest = std::max_element(result.populations.begin(), result.populations.end(),
                                        [](const auto& a, const auto& b) { return a.risk < b.risk; });
  result.governing = static_cast<int>(largest - result.populations.begin());
  const auto zone = std::max_element(largest->zone_share.begin(), largest->zone_share.end());
  result.zone = static_cast<Zone>(zone - largest->zone_share.begin());
  result.probability = probability_at_load(result, 1);
  result.bounds = probability_bounds_at_load(result, 1);
  return result;
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
