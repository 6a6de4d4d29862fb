// SPDX-License-Identifier: AGPL-3.0-or-later
// Elastic constants of one material and the stiffness they give, in material axes and turned to the build
// direction. Material axis 3 is the layer normal (the build direction) of a printed ceramic.
#pragma once

#include <optional>
#include <string>

#include "solver/material/tensor.hpp"

namespace crownproof {

/// Nine constants in material axes 1, 2, 3. poisson_ij = -eps_j / eps_i under tension along i.
/// Moduli in MPa. An isotropic material is the case of equal constants.
struct ElasticConstants {
  double youngs_1 = 0, youngs_2 = 0, youngs_3 = 0;
  double poisson_12 = 0, poisson_13 = 0, poisson_23 = 0;
  double shear_12 = 0, shear_13 = 0, shear_23 = 0;
};

ElasticConstants isotropic(double youngs_MPa, double poisson);

/// Layer plane 1-2 isotropic, layer normal 3. poisson_in_layer = poisson_12; poisson_across = poisson_31 =
/// contraction in the layer plane under tension along the layer normal; shear_across = G13 = G23.
ElasticConstants transversely_isotropic(double youngs_in_layer_MPa, double youngs_across_MPa,
                                        double poisson_in_layer, double poisson_across,
                                        double shear_across_MPa);

/// Why no real material can have these constants (which condition fails, with numbers), or nothing if it can.
/// Conditions: all moduli positive, |poisson_ij| < sqrt(E_i/E_j), determinant positive (Lempriere 1968).
std::optional<std::string> why_inadmissible(const ElasticConstants& constants);

/// Compliance in material axes, 1/MPa.
Stiffness compliance(const ElasticConstants& constants);

/// Stiffness in the axes of the shape. `axes` holds material axes 1, 2, 3 as columns.
/// Throws ModelError with the text of why_inadmissible.
Stiffness stiffness(const ElasticConstants& constants, const Mat3& axes = Mat3::Identity());

/// Material axes whose axis 3 is the given layer normal; axes 1 and 2 are the shape's x and y turned with it
/// by the smallest rotation.
Mat3 axes_of_layer_normal(const Vec3& layer_normal);

/// Axes with axis 1 along the scan direction, taken into the layer plane. Throws ModelError if that lies
/// along the normal or a direction has no length.
Mat3 axes_of_layers(const Vec3& layer_normal, const Vec3& scan_direction);

/// Largest Poisson's ratio in any pair of axes: tells how near to incompressible a material is.
double largest_poisson(const ElasticConstants& constants);

}  // namespace crownproof
