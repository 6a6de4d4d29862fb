// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/fracture_history.hpp"

#include <algorithm>
#include <cmath>

#include "solver/strength/assess.hpp"

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

std::vector<double> fracture_risks(const Model& model, const Result& result) {
  const RegionMaterial& material = material_under_study(model);
  if (why_no_probability(material)) return {};
  std::vector<double> risks;
  for (const BiteResult& bite : result.bites)
    risks.push_back(total_risk(
        fracture_now(result.mesh, bite.stress, model.domain.outer_region, material, {}, result.copies)));
  return risks;
}

void judge_fracture_settling(Result& result) {
  const SettlingRules rules{.negligible = negligible_change};
  for (std::size_t b = 0; b < result.bites.size(); ++b) {
    FractureOutlook& fracture = result.bites[b].fracture;
    if (!fracture.withheld.empty()) continue;
    const PeakUncertainty band = peak_uncertainty(risks_of(result.passes, b), rules);
    fracture.mesh_settling = band.settling;
    if (band.settling == Settling::one_pass)
      fracture.mesh_uncertainty = one_mesh_band(fracture.now);
    else if (band.value > 0)
      fracture.mesh_uncertainty = band.half_width() / band.value;
  }
}

}  // namespace crownproof
