// SPDX-License-Identifier: AGPL-3.0-or-later
// Exact solution of flat bonded layers on a half-space under a round pressure: the reference for the tension
// under a contact. Source: Burmister, J. Appl. Phys. 16 (1945) 89, 126, 296 (two and three layers); solved
// here for any number of layers, wave number by wave number of the Hankel transform.
#pragma once

#include <Eigen/Core>
#include <vector>

namespace crownproof {

/// One layer; the last one is the half-space and its thickness is not read.
struct HalfSpaceLayer {
  double thickness, youngs, poisson;  ///< mm, MPa
};

/// How the pressure is spread over the loaded disc.
enum class Spread { uniform, hertz };

/// Radial (= hoop) and axial stress on the axis, MPa.
struct AxisStress {
  double radial, axial;
};

/// Depth counts from the loaded face down.
class LayeredHalfSpace {
 public:
  /// `radius` of the loaded disc, mm; `force`, N, no shear. Made for radii of 0.1 to 2 thicknesses of the
  /// first layer and places within 8 mm of the axis.
  LayeredHalfSpace(std::vector<HalfSpaceLayer> layers, double radius, double force, Spread spread);

  /// On the axis at the underside of the first layer, on its own side.
  AxisStress under_first_layer() const;
  /// (outward, downward), mm; away from the edge of the disc.
  Eigen::Vector2d displacement(double r, double depth) const;
  const std::vector<HalfSpaceLayer>& layers() const { return layers_; }

 private:
  /// One point of the quadrature over wave numbers: its share with the pressure's transform, and the
  /// constants.
  struct Wave {
    double x, share;
    std::vector<Eigen::Vector4d> constants;  ///< #layers
  };
  std::vector<HalfSpaceLayer> layers_;
  std::vector<Wave> waves_;
};

}  // namespace crownproof
