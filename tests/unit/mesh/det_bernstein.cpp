// SPDX-License-Identifier: AGPL-3.0-or-later

#include <catch2/catch.hpp>

#include <Eigen/Dense>

#include <algorithm>
#include <random>

#include "mesh/det_bernstein.hpp"
#include "mesh/tet_mesh.hpp"

using namespace crownproof;

namespace {

std::array<Vec3, 10> straight(const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d) {
  std::array<Vec3, 10> n{a, b, c, d};
  for (int e = 0; e < 6; ++e) n[4 + e] = 0.5 * (n[tet_edges[e][0]] + n[tet_edges[e][1]]);
  return n;
}

/// x of the quadratic map at barycentric coordinates l (textbook shape functions).
Vec3 map(const std::array<Vec3, 10>& n, const Eigen::Vector4d& l) {
  Vec3 x = Vec3::Zero();
  for (int i = 0; i < 4; ++i) x += l[i] * (2 * l[i] - 1) * n[i];
  for (int e = 0; e < 6; ++e) x += 4 * l[tet_edges[e][0]] * l[tet_edges[e][1]] * n[4 + e];
  return x;
}

/// det J by central differences (exact for a quadratic map but for rounding).
double det_at(const std::array<Vec3, 10>& n, const Eigen::Vector4d& l) {
  Mat3 j;
  for (int k = 0; k < 3; ++k) {
    Eigen::Vector4d step = Eigen::Vector4d::Zero();
    step[k + 1] = 1e-2;
    step[0] = -1e-2;
    j.col(k) = (map(n, l + step) - map(n, l - step)) / 2e-2;
  }
  return j.determinant();
}

}  // namespace

TEST_CASE("A straight cell has one determinant everywhere", "[mesher][det_bernstein]") {
  const auto n = straight({0, 0, 0}, {2, 0, 0}, {0.3, 1.5, 0}, {0.1, 0.2, 1});
  const double six_volumes = straight_det(n[0], n[1], n[2], n[3]);
  CHECK(six_volumes == Approx(3));
  for (double c : det_coefficients(n)) CHECK(c == Approx(six_volumes));
  CHECK(volume_of(det_coefficients(n)) == Approx(0.5));
}

TEST_CASE("The coefficients bound the determinant and agree with it at the corners",
          "[mesher][det_bernstein]") {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> shift(-0.15, 0.15), part(0, 1);
  for (int round = 0; round < 20; ++round) {
    auto n = straight({0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1});
    for (int i = 4; i < 10; ++i) n[i] += Vec3(shift(random), shift(random), shift(random));
    const auto c = det_coefficients(n);
    for (int i = 0; i < 4; ++i) CHECK(c[i] == Approx(det_at(n, Eigen::Vector4d::Unit(i))).margin(1e-9));
    const auto [low, high] = std::minmax_element(c.begin(), c.end());
    double mean = 0;
    const int samples = 200;
    for (int s = 0; s < samples; ++s) {
      Eigen::Vector4d l(part(random), part(random), part(random), part(random));
      l = -(l.array() + 1e-12).log();  // uniform in the simplex after scaling
      l /= l.sum();
      const double det = det_at(n, l);
      CHECK(det >= *low - 1e-9);
      CHECK(det <= *high + 1e-9);
      mean += det / samples;
    }
    CHECK(volume_of(c) == Approx(mean / 6).epsilon(0.2));
  }
}

TEST_CASE("A mid-side node pulled past its neighbour is noticed", "[mesher][det_bernstein]") {
  auto n = straight({0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1});
  n[4] = {0.95, 0, 0};  // beyond the quarter point the map folds
  const auto c = det_coefficients(n);
  CHECK(*std::min_element(c.begin(), c.end()) < 0);
}
