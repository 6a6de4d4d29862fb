// SPDX-License-Identifier: AGPL-3.0-or-later
// A shoulder has a small round inner angle, a chamfer is one large round. What the rounds fill of the crown's
// corner follows from plane geometry: a corner of angle a filled with radius r holds r^2 (cot(a/2) - (pi -
// a)/2).
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include "mesh/crown/crown_design.hpp"
#include "mesh/crown/crown_shape.hpp"
#include "mesh/quality.hpp"
#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/fill.hpp"

using namespace crownproof;

namespace {

double crown_volume(const CrownParameters& p) {
  SizeRequest size;
  size.scale = 0.9;
  for (const RegionQuality& region : measure_quality(fill(crown_shape(p), size)).regions)
    if (region.region == "crown") return region.volume_mm3;
  return 0;
}

double filled_area(double radius, double angle) {
  return radius * radius * (1 / std::tan(0.5 * angle) - 0.5 * (std::numbers::pi - angle));
}

double girth(const Outline& outline, double half_x, double half_y) {
  const int n = 2000;
  double length = 0;
  for (int i = 0; i < n; ++i)
    length += (outline.point((i + 1) / double(n), half_x, half_y, 0) -
               outline.point(i / double(n), half_x, half_y, 0))
                  .norm();
  return length;
}

}  // namespace

TEST_CASE("A chamfer and a shoulder differ by what their rounds fill", "[verification][finish_line]") {
  CrownParameters chamfer;
  chamfer.axial_thickness_mm = 0.8;
  chamfer.finish_line.width_mm = 0.55;
  chamfer.total_occlusal_convergence_deg =
      2;  // rounds are circles where wall and ledge meet at a right angle
  chamfer.cement_thickness_mm = 0;
  CrownParameters shoulder = chamfer;
  shoulder.finish_line.form = FinishLineForm::shoulder;
  const CrownDesign d = design_crown(shoulder);
  const Preparation& prep = d.preparation;
  CHECK(prep.foot_radius == Approx(0.2));

  const double large = 0.85 * 0.55, small = 0.2;
  const double angle = 0.5 * std::numbers::pi + std::atan(prep.mesiodistal.taper);
  const double centroid = 0.22 * large;  // of the fill, outward of the corner
  const double length =
      girth(prep.outline, prep.mesiodistal.foot + centroid, prep.buccolingual.foot + centroid);
  const double expected = length * (filled_area(large, angle) - filled_area(small, angle));
  CHECK(expected > 0.5);
  CHECK(crown_volume(shoulder) - crown_volume(chamfer) == Approx(expected).epsilon(0.1));
}
