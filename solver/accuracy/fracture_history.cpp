// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/fracture_history.hpp"

#include <algorithm>
#include <cmath>

#include "solver/convergence/peak_uncertainty.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/flaw_populations.hpp"
#include "solver/strength/fracture_outlook.hpp"

namespace crownproof {
namespace {

/// Changes of the risk below this part of it are the noise of unstructured meshes.
constexpr double negligible_change = 0.01;
constexpr double one_mesh_part = 0.01;  ///< for each unit of the modulus

double one_mesh_band(const FractureProbability& fracture) {
  double modulus = 0;
  for (const PopulationRisk& p : fracture.populations) modulus = std::max(modulus, p.modulus);
  return one_mesh_part * modulus;
}

/// Risks of a bite by the mean cell size; the unit of size does not matter, only ratios do.
std::vector<PassValue> risks_of(const std::vector<Pass>& passes, std::size_t bite) {
  std::vector<PassValue> values;
  for (const Pass& pass : passes)
    if (bite < pass.risk.size()) values.push_back({1 / std::cbrt(pass.cells), pass.risk[bite]});
  return values;
}

}  // namespace

double total_risk(const FractureProbability& fracture) {
  double risk = 0;
  for (const PopulationRisk& p : fracture.populations) risk += p.risk;
  return risk;
}

std::vector<double> fracture_risks(const StudiedBody& body, const std::vector<BiteFields>& bites) {
  if (why_no_probability(body.material)) return {};
  const std::vector<Zone> no_zones;
  const StudiedBody whole{body.mesh, body.region, body.material, body.region_stiffness,
                          no_zones,  body.copies};
  std::vector<double> risks;
  for (const BiteFields& bite : bites) risks.push_back(total_risk(fracture_now(whole, bite.stress)));
  return risks;
}

RiskBand risk_band(const std::vector<Pass>& passes, std::size_t bite, const FractureProbability& fracture) {
  const PeakUncertainty band = peak_uncertainty(risks_of(passes, bite), {.negligible = negligible_change});
  if (band.settling == Settling::one_pass) return {one_mesh_band(fracture), band.settling};
  return {band.value > 0 ? band.half_width() / band.value : 0, band.settling};
}

}  // namespace crownproof
