// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/triangle_potential.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/element/quadratic_tetrahedron.hpp"

using namespace crownproof;

namespace {

using Triangle = std::array<Vec3, 3>;

/// int L_i / |x - y| by points on 4^levels equal parts.
Vec3 by_points(const Triangle& part, const Triangle& hats, const Vec3& x, int levels) {
  Vec3 sum = Vec3::Zero();
  if (levels > 0) {
    const std::array<int, 3> next{1, 2, 0};
    Triangle middle;
    Triangle hat;
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t j = static_cast<std::size_t>(next[i]);
      middle[i] = (part[i] + part[j]) / 2;
      hat[i] = (hats[i] + hats[j]) / 2;
    }
    sum += by_points(middle, hat, x, levels - 1);
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t back = (i + 2) % 3;
      sum += by_points({part[i], middle[i], middle[back]}, {hats[i], hat[i], hat[back]}, x, levels - 1);
    }
    return sum;
  }
  const double area = (part[1] - part[0]).cross(part[2] - part[0]).norm() / 2;
  for (const QuadraturePoint& point : triangle_rule(8)) {
    Vec3 y = Vec3::Zero();
    Vec3 hat = Vec3::Zero();
    for (std::size_t i = 0; i < 3; ++i) {
      y += point.at[i] * part[i];
      hat += point.at[i] * hats[i];
    }
    sum += point.weight * area / (x - y).norm() * hat;
  }
  return sum;
}

const Triangle tilted{Vec3(0.1, 0.2, -0.1), Vec3(1.1, 0.3, 0.2), Vec3(0.4, 1.0, 0.5)};
const Triangle unit_hats{Vec3::UnitX(), Vec3::UnitY(), Vec3::UnitZ()};

}  // namespace

TEST_CASE("the closed form of the potential is what points of quadrature find, above, beside and below") {
  for (const Vec3& x :
       {Vec3(0.5, 0.5, 0.9), Vec3(2.0, -1.0, 0.3), Vec3(0.5, 0.4, -0.2), Vec3(-4.0, 1.0, 2.0)}) {
    const Vec3 exact = triangle_potential(tilted, x);
    CHECK((exact - by_points(tilted, unit_hats, x, 5)).norm() < 1e-9 * exact.norm());
  }
}

TEST_CASE("above the centre of a square the potential is known, and at its centre it stays finite") {
  // Square of side 2 as four triangles round its centre: int 1/r = 8 asinh 1 (elementary).
  const std::array<Vec3, 4> ring{Vec3(1, 1, 0), Vec3(-1, 1, 0), Vec3(-1, -1, 0), Vec3(1, -1, 0)};
  double sum = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    sum += triangle_potential({Vec3::Zero(), ring[i], ring[(i + 1) % 4]}, Vec3::Zero()).sum();
  }
  CHECK(sum == Approx(8 * std::asinh(1.0)).epsilon(1e-13));
}

TEST_CASE("the potential is continuous onto edges and corners of the triangle") {
  const Vec3 inside = (tilted[0] + tilted[1] + tilted[2]) / 3;
  for (const Vec3& x : {tilted[0], Vec3((tilted[0] + tilted[1]) / 2), Vec3(2 * tilted[1] - tilted[0])}) {
    const Vec3 there = triangle_potential(tilted, x);
    const Vec3 beside = triangle_potential(tilted, x + 1e-9 * (inside - x));
    CHECK(there.allFinite());
    CHECK((there - beside).norm() < 1e-6 * there.norm());
  }
}
