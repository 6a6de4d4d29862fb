// SPDX-License-Identifier: AGPL-3.0-or-later
// Polynomial smoothing: step_k = keep_k step_{k-1} + take_k D^-1 residual.
#pragma once

#include <vector>

namespace crownproof {

struct ChebyshevStep {
  float keep, take;
};

/// Chebyshev polynomial of the first kind on [largest/ratio, largest] (Adams et al., J. Comput. Phys. 188
/// (2003) 593-610; recurrence as in Saad, Iterative Methods for Sparse Linear Systems, 12.3).
std::vector<ChebyshevStep> chebyshev_steps(int degree, double largest, double ratio);

}  // namespace crownproof
