// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/fracture_history.hpp"

#include <algorithm>
#include <cmath>

#include "solver/convergence/peak_uncertainty.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/flaw_populations.hpp"
#include "solver/strength/fracture_outlook.hpp"
#include "solver/stress/stress_field.hpp"

namespace crownproof {
namespace {

/// Changes of the logarithm of the risk below this are the noise of unstructured meshes.
constexpr double negligible_change = 0.01;
constexpr double one_mesh_part = 0.01, least_part = 0.005;  ///< of ln(risk), for each unit of the modulus

double largest_modulus(const FractureProbability& fracture) {
  double modulus = 0;
  for (const PopulationRisk& p : fracture.populations) modulus = std::max(modulus, p.modulus);
  return modulus;
}

/// Part of the risk that comes from a zone.
double share_of(const FractureProbability& fracture, Zone zone) {
  double risk = 0;
  for (const PopulationRisk& p : fracture.populations)
    risk += p.risk * p.zone_share[static_cast<std::size_t>(zone)];
  const double all = total_risk(fracture);
  return all > 0 ? risk / all : 0;
}

/// ln(risk) of a bite by the mean cell size (only ratios of sizes matter), moved so that the last is 1: what
/// the rules for peaks call relative is then the change of the logarithm itself.
std::vector<PassValue> logarithms_of(const std::vector<Pass>& passes, std::size_t bite) {
  std::vector<PassValue> values;
  for (const Pass& pass : passes)
    if (bite < pass.risk.size() && pass.risk[bite] > 0)
      values.push_back({1 / std::cbrt(pass.cells), std::log(pass.risk[bite])});
  const double last = values.empty() ? 0 : values.back().value;
  for (PassValue& v : values) v.value += 1 - last;
  return values;
}

/// How far the tension beside the contacts is known, relative; at most by all of itself.
double contact_uncertainty(const std::vector<ZonePeak>& peaks) {
  for (const ZonePeak& peak : peaks)
    if (peak.zone == Zone::contact) return std::min(1.0, peak.relative_uncertainty);
  return 0;
}

}  // namespace

double total_risk(const FractureProbability& fracture) {
  double risk = 0;
  for (const PopulationRisk& p : fracture.populations) risk += p.risk;
  return risk;
}

std::vector<double> fracture_risks(const StudiedBody& body, const std::vector<StressField>& bites) {
  if (why_no_probability(body.material)) return {};
  const StudiedBody whole = body.with_zones({});
  std::vector<double> risks;
  for (const StressField& bite : bites) risks.push_back(total_risk(fracture_now(whole, bite)));
  return risks;
}

RiskBand risk_band(const std::vector<Pass>& passes, std::size_t bite, const FractureProbability& fracture) {
  const double modulus = largest_modulus(fracture);
  const PeakUncertainty seen =
      peak_uncertainty(logarithms_of(passes, bite), {.negligible = negligible_change});
  const double rest = seen.settling == Settling::one_pass ? one_mesh_part * modulus
                                                          : std::max(seen.half_width(), least_part * modulus);
  const double contact = std::max(rest, modulus * contact_uncertainty(passes.back().peaks[bite]));
  const double share = share_of(fracture, Zone::contact);
  const double times = (1 - share) * std::exp(rest) + share * std::exp(contact);
  const double over = 1 / ((1 - share) * std::exp(-rest) + share * std::exp(-contact));
  return {std::max(times, over), seen.settling};
}

}  // namespace crownproof
