// SPDX-License-Identifier: AGPL-3.0-or-later
// A round Kirchhoff plate on a support ring, bent by 1 N over a central disc (uniform pressure) or on a ring.
// Source: Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, chapter 3 (from memory; solved here
// from the plate equation).
#pragma once

#include "solver/bench/bench_specimen.hpp"

namespace crownproof {

/// Bending stress on the tensile face of a disc specimen under 1 N.
class AxisymmetricPlate {
 public:
  explicit AxisymmetricPlate(const BenchSpecimen& disc);
  PlateStress at(double radius_mm) const;

 private:
  double poisson_, thickness_, loaded_, support_;
  bool ring_load_;
  double inner_ = 0, between_ = 0, between_inverse_ = 0, outer_ = 0, outer_inverse_ = 0;
};

}  // namespace crownproof
