// SPDX-License-Identifier: AGPL-3.0-or-later
// Weibull statistics of bench tests: P_f = 1 - exp(-(s / s0)^m), fitted by maximum likelihood. A specimen
// that did not break by the flaw in question (the load cell's limit was reached, another flaw won, a grip
// slipped) is suspended: it tells that its strength is above the stress it bore. Sources: Weibull 1951, J.
// Appl. Mech. 18:293; ASTM C1239 and ISO 20501 (two-parameter maximum likelihood with suspended specimens;
// formulas from memory, checked against the NIST handbook's worked example).
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace crownproof {

/// One specimen in one fit: the stress at its end (MPa) and whether the flaws in question broke it.
struct Specimen {
  double stress_MPa = 0;
  bool broken = true;  ///< false: suspended
};

/// A fitted two-parameter distribution (biased, as maximum likelihood gives it).
struct WeibullFit {
  double characteristic_MPa = 0;  ///< s0: 63.2 % of specimens break below it
  double modulus = 0;             ///< m
  double log_likelihood = 0;
  int n_broken = 0;
  int n_suspended = 0;

  int n() const { return n_broken + n_suspended; }
  bool complete() const { return n_suspended == 0; }
  /// Fracture probability of one specimen at a stress (MPa; 0 for no tension).
  double probability(double stress_MPa) const;
  /// Stress (MPa) at a fracture probability in (0, 1).
  double strength_at(double probability) const;
  /// Mean strength, s0 Gamma(1 + 1/m), MPa.
  double mean_MPa() const;
};

/// Sum of ln f over broken and ln(1 - F) over suspended specimens (stresses in MPa).
double log_likelihood(const std::vector<Specimen>& specimens, double characteristic_MPa, double modulus);

/// The largest likelihood. Throws ModelError with the reason if there is none: no broken specimen, a stress
/// that is not positive, or all broken at one stress that no other specimen exceeded.
WeibullFit fit_weibull(const std::vector<Specimen>& specimens);

/// One specimen with the flaw that broke it; an empty name: suspended.
struct ClassifiedSpecimen {
  double stress_MPa = 0;
  std::string flaw;
};

/// One flaw population: its fit, or why it has none (say, seen once and on the strongest specimen).
struct CompetingFit {
  std::optional<WeibullFit> fit;
  int n_broken = 0;
  std::string why_not;  ///< empty with a fit
};

/// Competing flaw populations: each is fitted with specimens broken by other flaws as suspended. A specimen
/// breaks by whichever comes first: P_f = 1 - exp(-sum over populations of (s/s0)^m). A population that
/// cannot be fitted does not keep the others from being told.
std::map<std::string, CompetingFit> fit_competing(const std::vector<ClassifiedSpecimen>& specimens);

/// A broken specimen on a Weibull probability plot: x = ln stress, y = ln(-ln(1 - P)).
struct PlotPoint {
  double stress_MPa = 0;
  double probability = 0;
};

/// Ranks (i - 0.5)/N of broken specimens, ascending; i is adjusted for suspended ones by Johnson's mean order
/// (Johnson 1964, The Statistical Treatment of Fatigue Experiments).
std::vector<PlotPoint> probability_plot(std::vector<Specimen> specimens);

}  // namespace crownproof
