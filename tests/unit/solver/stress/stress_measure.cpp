// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/stress/stress_measure.hpp"

#include <cmath>

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include "solver/bench/random_numbers.hpp"

using namespace crownproof;

namespace {

double felt(const StressMeasure& measure, const Voigt& stress) {
  return measure(stress)[0];
}

}  // namespace

TEST_CASE("layer planes: opening and shear act together", "[stress_measure]") {
  for (const bool slide : {false, true}) {
    const LayerPlanes planes{0.8, slide, 0.5};
    CHECK(layer_plane_tension(300, 0, planes) == Approx(300));
    CHECK(layer_plane_tension(0, 80, planes) == Approx(100));
    CHECK(layer_plane_tension(0, -80, planes) == Approx(100));
    CHECK(layer_plane_tension(300, 320, planes) == Approx(500));
  }
}

TEST_CASE("a layer plane pressed shut contributes exactly nothing", "[stress_measure]") {
  CHECK(layer_plane_tension(-1e-3, 500, {}) == 0);
  CHECK(layer_plane_tension(-100, 90, {}) == 0);
  RandomNumbers random(5);
  const StressMeasure measure = layer_plane_tensions(Vec3::UnitZ(), {});
  for (int i = 0; i < 1000; ++i) {
    Voigt stress;
    for (int k = 0; k < 6; ++k) stress[k] = 1000 * (random.uniform() - 0.5);
    stress[2] = -500 * random.uniform() - 1e-3;
    CHECK(measure(stress) == Tensions{});
  }
}

TEST_CASE("rounding does not press a plane in pure shear shut", "[stress_measure]") {
  CHECK(layer_plane_tension(-1e-12, 85, {}) == Approx(100));
  const Mat3 turn = Eigen::AngleAxisd(0.3, Vec3(1, 2, 3).normalized()).toRotationMatrix();
  const Voigt shear = stress_components(turn * stress_tensor(85 * Voigt::Unit(4)) * turn.transpose());
  CHECK(felt(layer_plane_tensions(turn * Vec3::UnitZ(), {}), shear) == Approx(100));
}

TEST_CASE("planes that slide feel what friction leaves of the shear", "[stress_measure]") {
  const LayerPlanes planes{0.8, true, 0.5};
  CHECK(layer_plane_tension(-100, 90, planes) == Approx(50));  // (90 - 50) / 0.8
  CHECK(layer_plane_tension(-200, 90, planes) == 0);           // friction holds
  CHECK(layer_plane_tension(-1e-5, 80, planes) ==
        Approx(layer_plane_tension(1e-5, 80, planes)).epsilon(1e-6));  // no jump
  CHECK(layer_plane_tension(-100, 90, {0.8, true, 0.0}) == Approx(90 / 0.8));
}

TEST_CASE("sliding is told apart from opening", "[stress_measure]") {
  const LayerPlanes planes{0.8, true, 0.5};
  const auto stress = [](double opening, double shear) -> Voigt {
    return opening * Voigt::Unit(2) + shear * Voigt::Unit(4);
  };
  const StressMeasure all = layer_plane_tensions(Vec3::UnitZ(), planes),
                      sliding = sliding_tensions(Vec3::UnitZ(), {0.8, false, 0.5});
  for (const double shear : {0.0, 60.0, 150.0}) {
    CHECK(felt(sliding, stress(40, shear)) == 0);
    CHECK(felt(sliding, stress(0, shear)) == 0);
    CHECK(felt(sliding, stress(-40, shear)) == Approx(felt(all, stress(-40, shear))));
  }
}

TEST_CASE("measures grow in proportion to the stress", "[stress_measure]") {
  const Voigt stress(120, -60, 80, 30, -25, 70);
  const Vec3 normal = Vec3(0.3, -0.2, 0.9).normalized();
  for (const StressMeasure& measure :
       {principal_tensions(), in_layer_tensions(normal), layer_plane_tensions(normal, {})})
    for (int k = 0; k < 3; ++k) CHECK(measure(3 * stress)[k] == Approx(3 * measure(stress)[k]));
}
