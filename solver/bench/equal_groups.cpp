// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/bench/equal_groups.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace crownproof {
namespace {

using Fits = std::vector<LogFit>;

/// The log likelihood of a group at given parameters.
LogFit at_parameters(const LogSample& sample, double location, double modulus) {
  LogFit fit{location, modulus,
             sample.n_broken * (std::log(modulus) + modulus * (sample.mean_broken - location))};
  for (const LogSpecimen& s : sample.specimens)
    fit.log_likelihood -= std::exp(std::min(modulus * (s.x - location), 600.0));
  return fit;
}

std::optional<Fits> same_distribution(const std::vector<LogGroup>& groups) {
  LogSample pool;
  for (const LogGroup& g : groups)
    pool.specimens.insert(pool.specimens.end(), g.sample.specimens.begin(), g.sample.specimens.end());
  pool.summarise();
  const auto all = fit_logs(pool);
  if (!all) return std::nullopt;
  Fits fits;
  for (const LogGroup& g : groups) fits.push_back(at_parameters(g.sample, all->location, all->modulus));
  return fits;
}

Fits same_modulus(const std::vector<LogGroup>& groups, const Fits& apart) {
  const auto slope = [&](double m) {
    Slope sum;
    for (const LogGroup& g : groups) {
      const Slope own = modulus_slope(g.sample, m);
      sum.value += g.sample.n_broken * own.value;
      sum.derivative += g.sample.n_broken * own.derivative;
    }
    return sum;
  };
  const double m = growing_root(slope, apart.front().modulus);
  Fits fits;
  for (const LogGroup& g : groups) fits.push_back(fit_at_modulus(g.sample, m));
  return fits;
}

/// The groups' best fits at a common location.
struct AtLocation {
  Fits fits;
  double gain = 0;  ///< of the likelihood if that location grows; falls with it
};

AtLocation at_location(const std::vector<LogGroup>& groups, double location) {
  AtLocation at;
  for (const LogGroup& g : groups) {
    at.fits.push_back(fit_at_strength(g.sample, location, 0));
    const double m = at.fits.back().modulus;
    double hazard = 0;
    for (const LogSpecimen& s : g.sample.specimens) hazard += std::exp(std::min(m * (s.x - location), 600.0));
    at.gain += m * (hazard - g.sample.n_broken);
  }
  return at;
}

/// The common location lies between those of the groups: false position with the Illinois step.
Fits same_characteristic(const std::vector<LogGroup>& groups, const Fits& apart) {
  const auto [lowest, highest] = std::minmax_element(
      apart.begin(), apart.end(), [](const LogFit& a, const LogFit& b) { return a.location < b.location; });
  double low = lowest->location, high = highest->location;
  AtLocation here = at_location(groups, high);
  double at_low = at_location(groups, low).gain, at_high = here.gain;
  for (int step = 0, last = 0; step < 60 && high - low > 1e-9; ++step) {
    const double middle = std::clamp((low * at_high - high * at_low) / (at_high - at_low), low, high);
    here = at_location(groups, middle);
    if (std::abs(here.gain) < 1e-9) break;
    const int side = here.gain > 0 ? 1 : -1;
    (side > 0 ? low : high) = middle;
    (side > 0 ? at_low : at_high) = here.gain;
    if (side == last) (side > 0 ? at_high : at_low) *= 0.5;
    last = side;
  }
  return here.fits;
}

/// s0 of one mm^3 (or mm^2) and m common to all: each group's location is that minus ln(size) / m.
Fits same_material_at(const std::vector<LogGroup>& groups, double m) {
  double top = -1e300, sum = 0, broken = 0;
  for (const LogGroup& g : groups) top = std::max(top, m * g.sample.top + g.size->log_size(m));
  for (const LogGroup& g : groups) {
    for (const LogSpecimen& s : g.sample.specimens) sum += std::exp(m * s.x + g.size->log_size(m) - top);
    broken += g.sample.n_broken;
  }
  const double location = (top + std::log(sum / broken)) / m;
  Fits fits;
  for (const LogGroup& g : groups)
    fits.push_back(at_parameters(g.sample, location - g.size->log_size(m) / m, m));
  return fits;
}

double sum_of(const Fits& fits) {
  double sum = 0;
  for (const LogFit& fit : fits) sum += fit.log_likelihood;
  return sum;
}

/// Golden section in ln m.
Fits same_material(const std::vector<LogGroup>& groups, const Fits& apart) {
  double low = 1e300, high = 0;
  for (const LogFit& fit : apart) low = std::min(low, fit.modulus), high = std::max(high, fit.modulus);
  const double golden = 0.6180339887498949;
  const auto at = [&](double log_m) { return sum_of(same_material_at(groups, std::exp(log_m))); };
  double a = std::log(low / 4), b = std::log(high * 2), c = b - golden * (b - a), d = a + golden * (b - a);
  double at_c = at(c), at_d = at(d);
  while (b - a > 1e-5) {
    if (at_c > at_d) {
      b = d, d = c, at_d = at_c;
      at_c = at(c = b - golden * (b - a));
    } else {
      a = c, c = d, at_c = at_d;
      at_d = at(d = a + golden * (b - a));
    }
  }
  return same_material_at(groups, std::exp(0.5 * (a + b)));
}

}  // namespace

std::optional<std::vector<LogFit>> fit_apart(const std::vector<LogGroup>& groups) {
  Fits fits;
  for (const LogGroup& g : groups) {
    const auto fit = fit_logs(g.sample);
    if (!fit) return std::nullopt;
    fits.push_back(*fit);
  }
  return fits;
}

std::optional<std::vector<LogFit>> fit_common(const std::vector<LogGroup>& groups,
                                              const std::vector<LogFit>& apart, Common common) {
  switch (common) {
    case Common::distribution:
      return same_distribution(groups);
    case Common::material:
      assert(std::all_of(groups.begin(), groups.end(), [](const LogGroup& g) { return g.size; }));
      return same_material(groups, apart);
    case Common::modulus:
      return same_modulus(groups, apart);
    case Common::characteristic:
      break;
  }
  return same_characteristic(groups, apart);
}

std::optional<double> likelihood_ratio(const std::vector<LogGroup>& groups, Common common) {
  const auto apart = fit_apart(groups);
  if (!apart) return std::nullopt;
  const auto together = fit_common(groups, *apart, common);
  if (!together) return std::nullopt;
  return std::max(0.0, 2 * (sum_of(*apart) - sum_of(*together)));
}

}  // namespace crownproof
