// SPDX-License-Identifier: AGPL-3.0-or-later
// The bench specimens strength is measured on, and how the layers of a printed one lie.
#pragma once

#include <optional>
#include <string>

#include "mesh/geometry.hpp"
#include "solver/bench/bench_test.hpp"

namespace crownproof {

/// Direction of a specimen that is normal to the layers of a printed material. Of a disc, width and length
/// lie in its plane; its stress is the same all round, so they mean the same.
enum class LayerNormal { thickness, width, length };

/// A specimen and its fixture, mm. Only the fields of its test count.
struct BenchSpecimen {
  BenchTest test = BenchTest::bend_3_point;
  double width_mm = 0;                           ///< bars and blocks
  double thickness_mm = 0;                       ///< bars (along the load), discs, blocks
  double length_mm = 0;                          ///< tension and compression: along the load
  double span_mm = 0;                            ///< bending: between the outer rollers
  double inner_span_mm = 0;                      ///< 4-point bending: between the inner rollers
  double diameter_mm = 0;                        ///< discs
  double support_diameter_mm = 0;                ///< discs: circle of the balls or the support ring
  double loading_diameter_mm = 0;                ///< discs: piston or loading ring
  double poisson = 0.3;                          ///< discs
  std::optional<LayerNormal> layer_normal = {};  ///< printed material; not given: what its strength is of
  double layer_tilt_deg = 0;  ///< of the layer normal towards the length; of `length` towards the thickness
};

/// Plain name: "3-point bending", "piston on three balls", ...
std::string bench_test_name(BenchTest test);

/// A disc bent on balls or a ring; bar or block otherwise.
bool is_disc(BenchTest test);

/// Why the sizes make no specimen (which one, and what is allowed), or nothing if they do.
std::optional<std::string> why_no_specimen(const BenchSpecimen& specimen);

/// Unit normal of the layers along x the length, y the width and z the thickness of the specimen.
/// `otherwise`: where the specimen does not say.
Vec3 layer_normal_of(const BenchSpecimen& specimen, LayerNormal otherwise);

/// Whether layers so built feel anything of the test, in beam and plate theory: a bar is pulled along its
/// length, a disc in its plane.
bool layers_feel_test(const BenchSpecimen& specimen, LayerNormal otherwise);

/// Radial and tangential stress on the tensile face of a disc at radius r (mm) under 1 N: Kirchhoff plate on
/// a ring, loaded by uniform pressure under the piston or by a line load on the loading ring.
struct PlateStress {
  double radial_MPa = 0, tangential_MPa = 0;
};
PlateStress plate_stress(const BenchSpecimen& disc, double radius_mm);

}  // namespace crownproof
