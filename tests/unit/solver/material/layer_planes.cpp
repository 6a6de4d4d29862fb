// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "solver/material/layer_planes.hpp"
#include "solver/material/material.hpp"

using namespace crownproof;

TEST_CASE("the shear divisor is 1 - nu/2", "[layer_planes]") {
  CHECK(penny_shear_divisor(isotropic(210e3, 0.30)) == Approx(0.85).epsilon(1e-14));
  CHECK(penny_shear_divisor(isotropic(210e3, 0.31)) == Approx(0.845).epsilon(1e-14));
  CHECK(penny_shear_divisor(isotropic(210e3, 0)) == 1);
  CHECK(LayerPlanes{}.shear_divisor == Approx(penny_shear_divisor(isotropic(1, 0.3))));
  // Layers of another stiffness: the contraction within them under tension along their normal.
  CHECK(penny_shear_divisor(transversely_isotropic(200e3, 150e3, 0.31, 0.24, 60e3)) == Approx(0.88));
}

TEST_CASE("the divisor follows from the energy release rate of a penny under tension and shear",
          "[layer_planes]") {
  // Stress intensities at the rim of a penny of radius a, at the angle w from the shear (Kassir & Sih 1966;
  // Tada, Paris & Irwin, handbook; from memory): K1 = 2 s sqrt(a/pi), K2 = 4 t cos w sqrt(a/pi) / (2 - nu),
  // K3 = 4 (1 - nu) t sin w sqrt(a/pi) / (2 - nu). G E / (1 - nu^2) = K1^2 + K2^2 + K3^2 / (1 - nu). The flaw
  // grows where G is highest around the rim, as it would under the tension s_eff alone.
  const double s = 130, t = 90, a = 0.01;
  for (const double nu : {0.0, 0.17, 0.31}) {
    double highest = 0;
    for (int i = 0; i <= 360; ++i) {
      const double w = std::numbers::pi * i / 180, root = std::sqrt(a / std::numbers::pi);
      const double k1 = 2 * s * root, k2 = 4 * t * std::cos(w) * root / (2 - nu),
                   k3 = 4 * (1 - nu) * t * std::sin(w) * root / (2 - nu);
      highest = std::max(highest, k1 * k1 + k2 * k2 + k3 * k3 / (1 - nu));
    }
    const double effective = std::sqrt(highest * std::numbers::pi / (4 * a));
    CHECK(std::hypot(s, t / penny_shear_divisor(isotropic(210e3, nu))) == Approx(effective).epsilon(1e-9));
  }
}
