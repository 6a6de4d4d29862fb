// SPDX-License-Identifier: AGPL-3.0-or-later

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "mesh/geometry_error.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/flat_stack.hpp"

using namespace crownproof;

namespace {

FlatStackParameters stack(double cement_um) {
  FlatStackParameters p;
  p.radius_mm = 5;
  p.ceramic_thickness_mm = 1.2;
  p.cement_thickness_mm = 1e-3 * cement_um;
  p.die_thickness_mm = 4;
  return p;
}

/// The end curves of every patch must lie on its surface, or the mesh has cracks.
void require_rings_on_patches(const Domain& d) {
  for (const Patch& patch : d.patches) {
    for (int i = 0; i < 12; ++i) {
      const double t = i / 12.0;
      CHECK(std::abs(patch.field(d.rings[patch.first_ring].point(t)).value) < 1e-12);
      CHECK((patch.start(t, 0) - d.rings[patch.first_ring].point(t)).norm() < 1e-12);
      if (patch.last_ring < 0) continue;
      CHECK(std::abs(patch.field(d.rings[patch.last_ring].point(t)).value) < 1e-12);
      CHECK((patch.start(t, 1) - d.rings[patch.last_ring].point(t)).norm() < 1e-12);
    }
  }
}

}  // namespace

TEST_CASE("a stack bonded directly shares one interface between ceramic and die", "[shapes]") {
  const Domain d = flat_stack(stack(0));
  require_rings_on_patches(d);
  CHECK(d.layers.empty());
  CHECK(d.rings.size() == 3);
  REQUIRE(d.fossa);
  CHECK(d.fossa->z() == Approx(1.2));
  CHECK(d.patches[2].face_name(Vec3::Zero()) == "intaglio");
}

TEST_CASE("a cemented stack lifts the ceramic by the cement along the die's normal", "[shapes]") {
  const Domain d = flat_stack(stack(80));
  require_rings_on_patches(d);
  REQUIRE(d.layers.size() == 1);
  const Layer& layer = d.layers[0];
  CHECK(layer.thickness_mm == Approx(0.08));
  const Vec3 base = d.rings[layer.base_ring].point(0.3);
  const Vec3 normal = unit_normal(d.patches[layer.base_patch].field, base);
  CHECK((d.rings[layer.offset_ring].point(0.3) - base - 0.08 * normal).norm() < 1e-12);
  CHECK(d.fossa->z() == Approx(1.28));
}

TEST_CASE("a point is dropped on the top of a stack and not beside it", "[shapes]") {
  const Domain d = flat_stack(stack(80));
  const auto on_top = drop_on_outer_surface(d, 1.5, -2);
  REQUIRE(on_top);
  CHECK(on_top->point.z() == Approx(1.28).margin(1e-9));
  CHECK(on_top->normal.z() == Approx(1));
  CHECK_FALSE(drop_on_outer_surface(d, 4, 4));
}

TEST_CASE("a rotated stack is the same stack in other axes", "[shapes]") {
  const Mat3 turn = Eigen::AngleAxisd(0.7, Vec3(1, 2, 3).normalized()).toRotationMatrix();
  const Domain d = flat_stack(stack(80)), r = rotated(d, turn);
  require_rings_on_patches(r);
  const Vec3 x{0.3, -0.4, 2.0};
  for (size_t i = 0; i < d.patches.size(); ++i) {
    const FieldSample a = d.patches[i].field(x), b = r.patches[i].field(turn * x);
    CHECK(a.value == Approx(b.value).margin(1e-12));
    CHECK((turn * a.gradient - b.gradient).norm() < 1e-12);
  }
  CHECK((turn * d.landmarks[0].point - r.landmarks[0].point).norm() < 1e-12);
  CHECK(landmark_index(r, "centre") == 0);
  CHECK(landmark_index(r, "nowhere") == -1);
}

TEST_CASE("a stack with an impossible size is refused in a sentence", "[shapes]") {
  FlatStackParameters p = stack(0);
  p.ceramic_thickness_mm = -1;
  CHECK_THROWS_WITH(flat_stack(p),
                    Catch::Contains("ceramic thickness") && Catch::Contains("must lie between"));
  p = stack(-3);
  CHECK_THROWS_AS(flat_stack(p), GeometryError);
}
