// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/stress/stress_patch.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace crownproof;

namespace {

Voigt quadratic_stress(const Vec3& x) {
  Voigt s;
  s << 3 + x[0], x[1] * x[1], x[0] * x[2] - 2, x[1] * x[2], 5 * x[2] * x[2], x[0] * x[1] + x[2];
  return s;
}

std::vector<StressSample> cloud(int n, const Vec3& extent, const Vec3& offset = Vec3::Zero()) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> unit(-1, 1);
  std::vector<StressSample> samples;
  for (int i = 0; i < n; ++i) {
    const Vec3 at = offset + extent.cwiseProduct(Vec3(unit(random), unit(random), unit(random)));
    samples.push_back({at, quadratic_stress(at)});
  }
  return samples;
}

}  // namespace

TEST_CASE("A quadratic stress is fitted exactly, in round and in flat clouds, far from the origin",
          "[stress_patch]") {
  for (const Vec3& extent : {Vec3(1, 1, 1), Vec3(0.4, 0.4, 0.004), Vec3(2e-3, 1e-3, 1e-3)})
    for (const Vec3& offset : {Vec3(0, 0, 0), Vec3(9, -7, 4)}) {
      const StressPatch patch = fit_stress_patch(cloud(40, extent, offset), 10, offset);
      REQUIRE(patch.terms == 10);
      const Vec3 at = offset + 0.9 * extent;
      CHECK((patch.at(at) - quadratic_stress(at)).norm() < 1e-8 * quadratic_stress(at).norm());
    }
}

TEST_CASE("A cloud that does not determine a polynomial is refused", "[stress_patch]") {
  CHECK(fit_stress_patch(cloud(9, Vec3(1, 1, 1)), 10, Vec3::Zero()).terms == 0);  // too few
  CHECK(fit_stress_patch(cloud(40, Vec3(1, 1, 0)), 4, Vec3::Zero()).terms == 0);  // flat
  std::vector<StressSample> two_levels = cloud(40, Vec3(1, 1, 1));
  for (StressSample& s : two_levels) s.at.z() = s.at.z() > 0 ? 1 : -1;  // cannot tell z^2 from 1
  CHECK(fit_stress_patch(two_levels, 10, Vec3::Zero()).terms == 0);
  CHECK(fit_stress_patch(two_levels, 4, Vec3::Zero()).terms == 4);
  CHECK(fit_stress_patch(cloud(1, Vec3(1, 1, 1)), 1, Vec3::Zero()).terms == 0);
}
