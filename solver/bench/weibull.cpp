// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/weibull.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "mesh/model_error.hpp"
#include "solver/bench/weibull_logs.hpp"

namespace crownproof {
namespace {

/// Throws for strengths that are none.
void check(const std::vector<Specimen>& specimens) {
  for (const Specimen& s : specimens)
    if (!(s.stress_MPa > 0) || !std::isfinite(s.stress_MPa))
      throw ModelError(
          fmt::format("A specimen has the strength {} MPa; strengths must be above zero.", s.stress_MPa));
  if (std::none_of(specimens.begin(), specimens.end(), [](const Specimen& s) { return s.broken; }))
    throw ModelError(
        "None of the specimens broke, so no Weibull distribution can be fitted; all that is known is "
        "that the strength lies above the stresses reached. Use a smaller specimen or a larger load cell.");
}

/// One flaw's fit, every specimen broken by another one as suspended.
CompetingFit fit_one_flaw(const std::vector<ClassifiedSpecimen>& specimens, const std::string& flaw) {
  CompetingFit result;
  std::vector<Specimen> seen;
  for (const ClassifiedSpecimen& s : specimens) {
    seen.push_back({s.stress_MPa, s.flaw == flaw});
    result.n_broken += s.flaw == flaw;
  }
  try {
    result.fit = fit_weibull(seen);
  } catch (const ModelError& reason) {
    result.why_not = reason.what();
  }
  return result;
}

}  // namespace

double WeibullFit::probability(double stress_MPa) const {
  return stress_MPa <= 0 ? 0 : -std::expm1(-std::pow(stress_MPa / characteristic_MPa, modulus));
}

double WeibullFit::strength_at(double probability) const {
  return characteristic_MPa * std::pow(-std::log1p(-probability), 1 / modulus);
}

double WeibullFit::mean_MPa() const {
  return characteristic_MPa * std::tgamma(1 + 1 / modulus);
}

double log_likelihood(const std::vector<Specimen>& specimens, double characteristic_MPa, double modulus) {
  double sum = 0;
  for (const Specimen& s : specimens) {
    const double l = std::log(s.stress_MPa / characteristic_MPa);
    if (s.broken) sum += std::log(modulus / s.stress_MPa) + modulus * l;
    sum -= std::exp(modulus * l);
  }
  return sum;
}

WeibullFit fit_weibull(const std::vector<Specimen>& specimens) {
  check(specimens);
  const LogSample sample(specimens);
  const auto best = fit_logs(sample);
  if (!best)
    throw ModelError(
        "All broken specimens have the same strength and none bore more, so the scatter, and with it the "
        "Weibull modulus, cannot be found. Test more specimens.");
  WeibullFit fit;
  fit.modulus = best->modulus;
  fit.characteristic_MPa = std::exp(best->location);
  fit.log_likelihood = best->log_likelihood - sample.n_broken * sample.mean_broken;
  fit.n_broken = sample.n_broken;
  fit.n_suspended = static_cast<int>(specimens.size()) - sample.n_broken;
  return fit;
}

std::map<std::string, CompetingFit> fit_competing(const std::vector<ClassifiedSpecimen>& specimens) {
  std::map<std::string, CompetingFit> fits;
  for (const ClassifiedSpecimen& named : specimens) {
    if (named.flaw.empty() || fits.count(named.flaw)) continue;
    fits[named.flaw] = fit_one_flaw(specimens, named.flaw);
  }
  return fits;
}

std::vector<PlotPoint> probability_plot(std::vector<Specimen> specimens) {
  std::stable_sort(specimens.begin(), specimens.end(), [](const Specimen& a, const Specimen& b) {
    return a.stress_MPa != b.stress_MPa ? a.stress_MPa < b.stress_MPa : a.broken > b.broken;
  });
  std::vector<PlotPoint> points;
  const double n = static_cast<double>(specimens.size());
  double order = 0;
  for (std::size_t i = 0; i < specimens.size(); ++i) {
    if (!specimens[i].broken) continue;
    // Suspended specimens before this one share out the orders that are left.
    order += (n + 1 - order) / (n - static_cast<double>(i) + 1);
    points.push_back({specimens[i].stress_MPa, (order - 0.5) / n});
  }
  return points;
}

}  // namespace crownproof
