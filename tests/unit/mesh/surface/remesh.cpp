// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>

#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/size_field.hpp"
#include "mesh/surface/patch_start.hpp"
#include "mesh/surface/remesh.hpp"
#include "mesh/surface/rings.hpp"
#include "tests/support/sample_surfaces.hpp"

using namespace crownproof;

namespace {

struct Cap {
  TriangleMesh mesh;
  int n_fixed = 0;
};

/// The northern cap of a ball of radius 2 with fine triangles at its pole.
Cap remeshed_cap(const SizeField& size) {
  const Domain ball = test::ball(2);
  const Patch& patch = ball.patches[0];
  RingNodes ring{ring_nodes(ball.rings[0], size), {}};
  for (double t : ring.t) ring.points.push_back(ball.rings[0].point(t));
  const TriangleMesh start = start_triangles(patch, chart_of(patch, ball.rings), ring, nullptr, size);
  const int n_fixed = static_cast<int>(ring.points.size());
  return {remesh(start, n_fixed, patch.field, size), n_fixed};
}

SizeField graded() {
  SizeRequest request;
  request.largest_mm = 0.5;
  return SizeField(Box{Vec3(-2, -2, -2), Vec3(2, 2, 2)}, request, {{{0, 0, 2}, 0.3, 0.08}});
}

}  // namespace

TEST_CASE("A remeshed cap has good angles and the asked edges", "[mesher][remesh]") {
  const SizeField size = graded();
  const Cap cap = remeshed_cap(size);
  double worst = 0, ratio = 0;
  int n = 0;
  for (const auto& t : cap.mesh.triangles) {
    const Vec3 &a = cap.mesh.vertices[t[0]], &b = cap.mesh.vertices[t[1]], &c = cap.mesh.vertices[t[2]];
    worst = std::max(worst, worst_cotangent(a, b, c));
    ratio += (b - a).norm() / size(0.5 * (a + b));
    ++n;
  }
  CHECK(worst < 1 / std::tan(28 * 3.14159265 / 180));  // every angle above 28 degrees
  CHECK(ratio / n == Approx(1).margin(0.1));
}

TEST_CASE("Remeshing keeps the ring, the surface, the border and the orientation", "[mesher][remesh]") {
  const SizeField size = graded();
  const Cap cap = remeshed_cap(size);
  for (std::size_t v = 0; v < cap.mesh.vertices.size(); ++v) {
    CHECK(std::abs(cap.mesh.vertices[v].norm() - 2) < 1e-9);
    if (static_cast<int>(v) < cap.n_fixed) CHECK(std::abs(cap.mesh.vertices[v].z()) < 1e-12);
  }
  std::map<std::pair<int, int>, int> edges;
  for (const auto& t : cap.mesh.triangles) {
    const Vec3 &a = cap.mesh.vertices[t[0]], &b = cap.mesh.vertices[t[1]], &c = cap.mesh.vertices[t[2]];
    CHECK(area_vector(a, b, c).dot(a + b + c) > 0);
    for (int e = 0; e < 3; ++e) {
      const auto [low, high] = std::minmax(t[e], t[(e + 1) % 3]);
      ++edges[{low, high}];
    }
  }
  int border = 0;
  for (const auto& [edge, n] : edges) {
    CHECK(n <= 2);
    if (n == 1) ++border;
  }
  CHECK(border == cap.n_fixed);
  // A disk: V - E + F = 1 (Euler).
  CHECK(static_cast<int>(cap.mesh.vertices.size()) - static_cast<int>(edges.size()) +
            static_cast<int>(cap.mesh.triangles.size()) ==
        1);
}

TEST_CASE("Curvature comes out as the reciprocal radius", "[mesher][remesh]") {
  const Domain ball = test::ball(2);
  CHECK(largest_curvature(ball.patches[0].field, {0, 1.2, 1.6}) == Approx(0.5).epsilon(1e-4));
  const ImplicitField cylinder = [](const Vec3& x) {
    return FieldSample{x.head<2>().squaredNorm() - 9, {2 * x.x(), 2 * x.y(), 0}};
  };
  CHECK(largest_curvature(cylinder, {3, 0, 1}) == Approx(1.0 / 3).epsilon(1e-4));
}

TEST_CASE("Where the surface jumps, splitting stops with the place named", "[mesher][remesh]") {
  // Two sheets, z = 1 and z = -1.2, and triangles that hang between them: every edge across the gap is longer
  // than asked, and so is one of its halves, because its middle lands on either sheet.
  const ImplicitField two_sheets = [](const Vec3& x) {
    const double f = (x.z() - 1) * (x.z() + 1.2), e = std::exp(0.5 * x.z());
    return FieldSample{f * e, {0, 0, e * (2 * x.z() + 0.2 + 0.5 * f)}};
  };
  TriangleMesh start;
  start.vertices = {{-6, -6, 1}, {6, -6, 1}, {6, 6, -1.2}, {-6, 6, -1.2}};
  start.triangles = {{0, 1, 2}, {0, 2, 3}};
  SizeRequest request;
  request.largest_mm = 0.8;
  const SizeField size(Box{Vec3(-6, -6, -2), Vec3(6, 6, 2)}, request, {}, 10000);
  CHECK_THROWS_WITH(remesh(start, 4, two_sheets, size), Catch::Contains("split without end"));
}
