// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/chebyshev.hpp"

namespace crownproof {

std::vector<ChebyshevStep> chebyshev_steps(int degree, double largest, double ratio) {
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

std::vector<ChebyshevStep> fourth_kind_steps(int degree, double largest) {
  std::vector<ChebyshevStep> steps;
  for (int k = 1; k <= degree; ++k) {
    steps.push_back({static_cast<float>((2.0 * k - 3) / (2.0 * k + 1)),
                     static_cast<float>((8.0 * k - 4) / (2.0 * k + 1) / largest)});
  }
  steps[0].keep = 0;
  return steps;
}

}  // namespace crownproof
