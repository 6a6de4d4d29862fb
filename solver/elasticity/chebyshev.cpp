// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/chebyshev.hpp"

namespace crownproof {

std::vector<ChebyshevStep> chebyshev_steps(int degree, double largest, double ratio) {
  // Errors below `smallest` hardly change: they are smooth, and the next coarser level takes them.
  const double smallest = largest / ratio, centre = (largest + smallest) / 2, half = (largest - smallest) / 2;
  std::vector<ChebyshevStep> steps{{0, static_cast<float>(1 / centre)}};
  double rho = half / centre;
  for (int k = 1; k < degree; ++k) {
    const double next = 1 / (2 * centre / half - rho);
    steps.push_back({static_cast<float>(next * rho), static_cast<float>(2 * next / half)});
    rho = next;
  }
  return steps;
}

}  // namespace crownproof
