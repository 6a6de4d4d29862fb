// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/weibull.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "mesh/model_error.hpp"

namespace crownproof {
namespace {

/// Logarithms relative to the largest stress, so that powers never overflow.
struct Logs {
  std::vector<double> all;  ///< ln(s / s_max) of every specimen
  double mean_broken = 0;   ///< mean of the above over broken ones
  double largest_MPa = 0;   ///< s_max
  int broken = 0;
};

Logs logs_of(const std::vector<Specimen>& specimens) {
  Logs logs;
  for (const Specimen& s : specimens) {
    if (!(s.stress_MPa > 0) || !std::isfinite(s.stress_MPa))
      throw ModelError(
          fmt::format("A specimen has the strength {} MPa; strengths must be above zero.", s.stress_MPa));
    logs.largest_MPa = std::max(logs.largest_MPa, s.stress_MPa);
  }
  for (const Specimen& s : specimens) {
    logs.all.push_back(std::log(s.stress_MPa / logs.largest_MPa));
    if (!s.broken) continue;
    logs.mean_broken += logs.all.back();
    ++logs.broken;
  }
  if (logs.broken == 0)
    throw ModelError(
        "None of the specimens broke, so no Weibull distribution can be fitted; all that is known is "
        "that the strength lies above the stresses reached. Use a smaller specimen or a larger load cell.");
  logs.mean_broken /= logs.broken;
  return logs;
}

/// The equation of the best m: mean of ln s weighted by s^m, minus 1/m, minus the mean over broken = 0; grows
/// with m from minus infinity. Value and derivative.
struct Slope {
  double value, derivative;
};
Slope modulus_equation(const Logs& logs, double m) {
  double sum = 0, sum_log = 0, sum_log2 = 0;
  for (const double l : logs.all) {
    const double power = std::exp(m * l);
    sum += power;
    sum_log += power * l;
    sum_log2 += power * l * l;
  }
  const double mean = sum_log / sum;
  return {mean - 1 / m - logs.mean_broken, sum_log2 / sum - mean * mean + 1 / (m * m)};
}

/// Root of a growing function by Newton steps kept inside a shrinking bracket.
template <typename Function>
double growing_root(const Function& f, double low, double high) {
  double x = 0.5 * high;
  for (int step = 0; step < 200 && high - low > 1e-15 * high; ++step) {
    const Slope here = f(x);
    (here.value > 0 ? high : low) = x;
    const double newton = x - here.value / here.derivative;
    const double next = newton > low && newton < high ? newton : 0.5 * (low + high);
    if (std::abs(next - x) <= 1e-15 * x) return next;
    x = next;
  }
  return x;
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

double best_characteristic(const std::vector<Specimen>& specimens, double modulus) {
  const Logs logs = logs_of(specimens);
  double sum = 0;
  for (const double l : logs.all) sum += std::exp(modulus * l);
  return logs.largest_MPa * std::pow(sum / logs.broken, 1 / modulus);
}

double best_modulus(const std::vector<Specimen>& specimens, double characteristic_MPa) {
  const Logs logs = logs_of(specimens);
  const double shift = std::log(characteristic_MPa / logs.largest_MPa);
  // Minus d(log likelihood)/dm / r; grows with m.
  const auto equation = [&](double m) {
    Slope slope{-1 / m - (logs.mean_broken - shift), 1 / (m * m)};
    for (const double l : logs.all) {
      const double power = std::exp(m * (l - shift));
      slope.value += power * (l - shift) / logs.broken;
      slope.derivative += power * (l - shift) * (l - shift) / logs.broken;
    }
    return slope;
  };
  double high = 1;
  while (high < 1e6 && equation(high).value < 0) high *= 2;
  return growing_root(equation, 1e-6, high);
}

WeibullFit fit_weibull(const std::vector<Specimen>& specimens) {
  const Logs logs = logs_of(specimens);
  // For very large m the weighted mean tends to ln(s_max / s_max) = 0.
  if (logs.mean_broken > -1e-12)
    throw ModelError(
        "All broken specimens have the same strength and none bore more, so the scatter, and with it the "
        "Weibull modulus, cannot be found. Test more specimens.");
  double high = 1;
  while (modulus_equation(logs, high).value < 0) high *= 2;
  WeibullFit fit;
  fit.modulus = growing_root([&](double m) { return modulus_equation(logs, m); }, 1e-6, high);
  fit.characteristic_MPa = best_characteristic(specimens, fit.modulus);
  fit.log_likelihood = log_likelihood(specimens, fit.characteristic_MPa, fit.modulus);
  fit.n_broken = logs.broken;
  fit.n_suspended = static_cast<int>(specimens.size()) - logs.broken;
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
