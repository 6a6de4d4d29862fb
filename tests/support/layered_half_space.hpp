// SPDX-License-Identifier: AGPL-3.0-or-later
// Exact solution of flat bonded layers on a half-space under a round pressure: the reference for the tension
// under a contact. Source: Burmister, J. Appl. Phys. 16 (1945) 89, 126, 296 (two and three layers); solved
// here for any number of layers, wave number by wave number of the Hankel transform.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/model/model.hpp"
#include "tests/support/flat_layer.hpp"

namespace crownproof {

/// Radial (= hoop) and axial stress on the axis, MPa.
struct AxisStress {
  double radial, axial;
};

/// Depth counts from the loaded face down.
class LayeredHalfSpace {
 public:
  /// From the loaded layer down; the last one is the half-space and its thickness is not read. `radius` of
  /// the loaded disc, mm; `force`, N, no shear. Made for radii of 0.1 to 2 thicknesses of the first layer and
  /// places within 8 mm of the axis.
  LayeredHalfSpace(std::vector<FlatLayer> layers, double radius, double force, PressureShape shape);

  /// On the axis at the underside of the first layer, on its own side.
  AxisStress under_first_layer() const;
  /// (outward, downward), mm; away from the edge of the disc.
  Eigen::Vector2d displacement(double r, double depth) const;

 private:
  /// One point of the quadrature over wave numbers: its share with the pressure's transform, and the
  /// constants.
  struct Wave {
    double x, share;
    std::vector<Eigen::Vector4d> constants;  ///< #layers
  };
  std::vector<FlatLayer> layers_;
  std::vector<Wave> waves_;
};

}  // namespace crownproof
