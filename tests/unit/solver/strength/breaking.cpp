// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/material/material.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/strength.hpp"
#include "solver/strength/breaking.hpp"
#include "solver/strength/mechanism.hpp"

using namespace crownproof;

namespace {

RegionMaterial ceramic(bool layered) {
  RegionMaterial m;
  m.region = "crown";
  m.material.elastic = isotropic(210e3, .3);
  m.material.strength = MaterialStrength{{900, 10}, Strength{400, 8}};
  m.layered = layered;
  m.axes = axes_of_layer_normal(Vec3::UnitX());  // layers across x
  return m;
}

}  // namespace

TEST_CASE("A body without layers breaks by its first principal stress", "[breaking]") {
  const RegionMaterial m = ceramic(false);
  const Breaking way = weakest_way(m, tension_of(m, 300 * Voigt::Unit(0)));
  CHECK(way.mechanism == Mechanism::breaks_across_body);
  CHECK(way.tension_MPa == Approx(300));
  CHECK(way.safety_factor() == Approx(3));
}

TEST_CASE("Pulling across the layers opens them, pulling along them breaks the body", "[breaking]") {
  const RegionMaterial m = ceramic(true);
  const Breaking across = weakest_way(m, tension_of(m, 300 * Voigt::Unit(0)));
  CHECK(across.mechanism == Mechanism::opens_between_layers);
  CHECK(across.safety_factor() == Approx(400.0 / 300));
  const Breaking along = weakest_way(m, tension_of(m, 300 * Voigt::Unit(1)));
  CHECK(along.mechanism == Mechanism::breaks_across_body);
  CHECK(along.safety_factor() == Approx(3));
}

TEST_CASE("Flaws of the body feel tension across the layers too", "[breaking]") {
  // Pulled across: 300 MPa, within the layers: 90 MPa.
  const Voigt stress = 300 * Voigt::Unit(0) + 90 * Voigt::Unit(1);
  RegionMaterial m = ceramic(true);
  CHECK(body_tension(m, tension_of(m, stress)) == Approx(300));
  SECTION("also where nothing is known of the layers") {
    m.material.strength->across_layer.reset();
    CHECK(weakest_way(m, tension_of(m, stress)).safety_factor() == Approx(3));
  }
  SECTION("but not where the layers are known to be stronger") {
    m.material.strength->across_layer->characteristic_MPa = 1200;
    CHECK(layers_are_stronger(m));
    CHECK(body_tension(m, tension_of(m, stress)) == Approx(90));
    CHECK(weakest_way(m, tension_of(m, stress)).safety_factor() == Approx(4));
  }
}

TEST_CASE("Layers pressed shut hold, or slide if they may", "[breaking]") {
  // Pressure of 100 MPa and shear of 200 MPa on the layers; first principal stress -50 + sqrt(50^2 + 200^2).
  const Voigt stress = -100 * Voigt::Unit(0) + 200 * Voigt::Unit(5);
  RegionMaterial m = ceramic(true);
  const Breaking holds = weakest_way(m, tension_of(m, stress));
  CHECK(tension_of(m, stress).across_layer == 0);
  CHECK(holds.mechanism == Mechanism::breaks_across_body);
  CHECK(holds.tension_MPa == Approx(-50 + std::hypot(50, 200)));
  m.layer_planes.slide = true;
  const Breaking slides = weakest_way(m, tension_of(m, stress));
  CHECK(slides.mechanism == Mechanism::slides_between_layers);
  CHECK(slides.tension_MPa == Approx((200 - 50) / 0.85));
  const Breaking opens = weakest_way(m, tension_of(m, stress + 110 * Voigt::Unit(0)));
  CHECK(opens.mechanism == Mechanism::opens_between_layers);
}

TEST_CASE("Where there is no tension the safety factor is infinite", "[breaking]") {
  const RegionMaterial m = ceramic(false);
  CHECK(std::isinf(weakest_way(m, tension_of(m, -50 * (Voigt::Unit(0) + Voigt::Unit(1) + Voigt::Unit(2))))
                       .safety_factor()));
}

TEST_CASE("A pull at 45 degrees to the layers opens them by opening and shear together", "[breaking]") {
  // Uniaxial s at 45 degrees: opening s/2 and shear s/2 on the layer plane (Mohr's circle); mixed criterion
  // sqrt(opening^2 + (shear / 0.85)^2).
  const RegionMaterial m = ceramic(true);
  Voigt stress = 150 * (Voigt::Unit(0) + Voigt::Unit(1) + Voigt::Unit(5));
  const Breaking way = weakest_way(m, tension_of(m, stress));
  CHECK(way.mechanism == Mechanism::opens_between_layers);
  CHECK(way.tension_MPa == Approx(std::hypot(150, 150 / 0.85)));
}
