// SPDX-License-Identifier: AGPL-3.0-or-later
// A polynomial fitted to the stress at the Gauss points of a patch of cells: the heart of superconvergent
// patch recovery. Source: Zienkiewicz & Zhu, Int. J. Numer. Methods Eng. 33 (1992) 1331-1364.
#pragma once

#include <vector>

#include "solver/material/tensor.hpp"

namespace crownproof {

/// A Gauss point: where, and the stress there (MPa).
struct StressSample {
  Vec3 at = Vec3::Zero();
  Voigt stress = Voigt::Zero();
};

/// sum_i coefficients(i, :) m_i(y) with y = axes (x - centre) and m = 1, y1, y2, y3, y1^2, y2^2, y3^2, y2 y3,
/// y1 y3, y1 y2. The axes scale the cloud of samples to unit spread in every direction, so that thin layers
/// fit as well as round patches.
struct StressPatch {
  Vec3 centre = Vec3::Zero();
  Mat3 axes = Mat3::Identity();                    ///< 1/mm
  Eigen::Matrix<double, 10, 6> coefficients = {};  ///< rows beyond `terms` are zero
  int terms = 0;                                   ///< 10 quadratic, 4 linear, 1 mean; 0: not fitted

  double leverage = 0;  ///< at `vertex`, see fit_stress_patch

  Voigt at(const Vec3& point) const;
};

/// Least-squares fit of a polynomial with 10, 4 or 1 terms. Returns terms = 0 if the samples do not determine
/// it (too few, or badly placed). `leverage` becomes the variance of the value at `vertex` for unit,
/// independent errors of the samples: well below 1 amid many samples, large where the polynomial is
/// extrapolated from few.
StressPatch fit_stress_patch(const std::vector<StressSample>& samples, int terms, const Vec3& vertex);

}  // namespace crownproof
