// SPDX-License-Identifier: AGPL-3.0-or-later
// The bench specimens strength is measured on, and how large they are for flaws: the effective volume or
// area, the size of a bar in uniform tension that breaks as readily at the same highest stress.
#pragma once

#include <optional>
#include <string>

namespace crownproof {

enum class BenchTest {
  tension,
  bend_3_point,
  bend_4_point,
  piston_on_three_balls,
  ring_on_ring,
  compression
};

/// Where fracture starts: at flaws throughout the body or at flaws of its surface.
enum class FlawKind { volume, surface };

/// A specimen and its fixture, mm. Only the fields of its test count.
struct BenchSpecimen {
  BenchTest test = BenchTest::bend_3_point;
  double width_mm = 0;             ///< bars and blocks
  double thickness_mm = 0;         ///< bars (along the load), discs, blocks
  double length_mm = 0;            ///< tension and compression: along the load
  double span_mm = 0;              ///< bending: between the outer rollers
  double inner_span_mm = 0;        ///< 4-point bending: between the inner rollers
  double diameter_mm = 0;          ///< discs
  double support_diameter_mm = 0;  ///< discs: circle of the balls or the support ring
  double loading_diameter_mm = 0;  ///< discs: piston or loading ring
  double poisson = 0.3;            ///< discs
};

/// Plain name: "3-point bending", "piston on three balls", ...
std::string bench_test_name(BenchTest test);

/// Why the sizes make no specimen (which one, and what is allowed), or nothing if they do.
std::optional<std::string> why_no_specimen(const BenchSpecimen& specimen);

/// Effective volume (mm^3) or area (mm^2) at a Weibull modulus, principle of independent action, related to
/// the highest stress of the standard formula. Bars: beam theory (Davies 1973, Proc. Br. Ceram. Soc. 22:429);
/// area: the tensile face and the tensile halves of both sides. Discs: thin-plate stress of plate_stress(),
/// both principal stresses counted, tensile face only. Throws ModelError for an impossible specimen and for
/// compression, which has no tension to speak of.
double effective_size(const BenchSpecimen& specimen, double modulus, FlawKind flaws);

/// Radial and tangential stress on the tensile face of a disc at radius r (mm) under 1 N: Kirchhoff plate on
/// a ring, loaded by uniform pressure under the piston or by a line load on the loading ring.
struct PlateStress {
  double radial_MPa = 0, tangential_MPa = 0;
};
PlateStress plate_stress(const BenchSpecimen& disc, double radius_mm);

}  // namespace crownproof
