// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/stress/stress_patch.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <cmath>

namespace crownproof {
namespace {

using Monomials = Eigen::Matrix<double, 10, 1>;

Monomials monomials(const Vec3& y) {
  Monomials m;
  m << 1, y[0], y[1], y[2], y[0] * y[0], y[1] * y[1], y[2] * y[2], y[1] * y[2], y[0] * y[2], y[0] * y[1];
  return m;
}

/// Centre and axes that give the cloud of samples unit spread; false if the cloud is flat.
bool normalise(const std::vector<StressSample>& samples, StressPatch& patch) {
  for (const StressSample& s : samples) patch.centre += s.at;
  patch.centre /= static_cast<double>(samples.size());
  Mat3 spread = Mat3::Zero();
  for (const StressSample& s : samples) spread += (s.at - patch.centre) * (s.at - patch.centre).transpose();
  spread /= static_cast<double>(samples.size());
  const Eigen::SelfAdjointEigenSolver<Mat3> axes(spread);
  const Vec3 variance = axes.eigenvalues();
  if (!(variance[0] > 1e-10 * variance[2])) return false;
  patch.axes = variance.cwiseSqrt().cwiseInverse().asDiagonal() * axes.eigenvectors().transpose();
  return true;
}

}  // namespace

Voigt StressPatch::at(const Vec3& point) const {
  return coefficients.transpose() * monomials(axes * (point - centre));
}

StressPatch fit_stress_patch(const std::vector<StressSample>& samples, int terms, const Vec3& vertex) {
  StressPatch patch;
  patch.coefficients.setZero();
  if (static_cast<int>(samples.size()) < terms + (terms > 1 ? 2 : 0) || !normalise(samples, patch)) return {};
  Eigen::Matrix<double, 10, 10> normal = Eigen::Matrix<double, 10, 10>::Zero();
  Eigen::Matrix<double, 10, 6> right = Eigen::Matrix<double, 10, 6>::Zero();
  double reach = 0;
  // Samples near the vertex count up to e times more than the farthest: less bias where a patch had to grow.
  for (const StressSample& s : samples) reach = std::max(reach, (patch.axes * (s.at - vertex)).squaredNorm());
  for (const StressSample& s : samples) {
    const Monomials m = monomials(patch.axes * (s.at - patch.centre));
    const double weight = std::exp(-(patch.axes * (s.at - vertex)).squaredNorm() / reach);
    normal.noalias() += weight * m * m.transpose();
    right.noalias() += weight * m * s.stress.transpose();
  }
  const Eigen::LDLT<Eigen::MatrixXd> factor(normal.topLeftCorner(terms, terms));
  const Eigen::VectorXd pivots = factor.vectorD();
  // The cloud has unit spread, so pivots of a well-determined fit are all of the order of the sample count.
  if (!(pivots.minCoeff() > 1e-3 * pivots.maxCoeff())) return {};
  patch.coefficients.topRows(terms) = factor.solve(right.topRows(terms));
  const Eigen::VectorXd m = monomials(patch.axes * (vertex - patch.centre)).head(terms);
  patch.leverage = m.dot(factor.solve(m));
  patch.terms = terms;
  return patch;
}

}  // namespace crownproof
