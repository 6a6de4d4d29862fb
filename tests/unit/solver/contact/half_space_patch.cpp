// SPDX-License-Identifier: AGPL-3.0-or-later
// Sources: Johnson, Contact Mechanics (1985), eqs 3.42 and 3.45 (Hertz pressure, surface and axis) and 3.33
// (uniform pressure on the axis, Timoshenko & Goodier); from memory. Equilibrium needs no source.
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/contact/half_space_patch.hpp"

using namespace crownproof;

TEST_CASE("Hertz pressure: stress on the surface inside and outside", "[half_space_patch]") {
  const double nu = GENERATE(0.2, 0.3, 0.45);
  for (const double r : {0.2, 0.6, 0.95}) {
    const double s = std::sqrt(1 - r * r), ring = (1 - 2 * nu) / (3 * r * r) * (1 - s * s * s);
    const AxialStress found = hertz_stress(r, 0, nu);
    CHECK(found.radial == Approx(ring - s).margin(1e-5));
    CHECK(found.hoop == Approx(-ring - 2 * nu * s).margin(1e-5));
    CHECK(found.axial == Approx(-s).margin(1e-5));
  }
  for (const double r : {1.0001, 1.3, 4.0}) {
    const AxialStress found = hertz_stress(r, 0, nu);
    CHECK(found.radial == Approx((1 - 2 * nu) / (3 * r * r)).margin(1e-5));
    CHECK(found.hoop == Approx(-(1 - 2 * nu) / (3 * r * r)).margin(1e-5));
    CHECK(found.axial == Approx(0).margin(1e-5));
  }
}

TEST_CASE("Hertz pressure: stress on the axis", "[half_space_patch]") {
  const double nu = 0.3;
  for (const double z : {0.1, 0.48, 1.0, 3.0}) {
    const AxialStress found = hertz_stress(0, z, nu);
    CHECK(found.axial == Approx(-1 / (1 + z * z)));
    CHECK(found.radial == Approx(-(1 + nu) * (1 - z * std::atan(1 / z)) + 0.5 / (1 + z * z)).epsilon(1e-6));
    CHECK(found.hoop == Approx(found.radial).epsilon(1e-6));
  }
}

TEST_CASE("Hertz pressure: the stress is in equilibrium inside", "[half_space_patch]") {
  const double h = 1e-5;
  for (const auto& [r, z] : {std::pair{0.5, 0.4}, {1.1, 0.2}, {0.95, 0.05}, {2.0, 1.0}}) {
    const AxialStress here = hertz_stress(r, z, 0.25);
    const AxialStress in = hertz_stress(r - h, z, 0.25), out = hertz_stress(r + h, z, 0.25);
    const AxialStress up = hertz_stress(r, z - h, 0.25), down = hertz_stress(r, z + h, 0.25);
    CHECK((out.radial - in.radial + down.shear - up.shear) / (2 * h) + (here.radial - here.hoop) / r ==
          Approx(0).margin(1e-6));
    CHECK((out.shear - in.shear + down.axial - up.axial) / (2 * h) + here.shear / r ==
          Approx(0).margin(1e-6));
  }
}

TEST_CASE("Uniform pressure: axis, rim, and the pressure itself", "[half_space_patch]") {
  const double nu = 0.3;
  for (const double z : {0.3, 1.0, 2.0}) {
    const double far = std::hypot(1, z);
    const AxialStress found = uniform_stress(0, z, nu);
    CHECK(found.axial == Approx(-(1 - std::pow(z / far, 3))).epsilon(0.01));
    CHECK(found.radial ==
          Approx(-0.5 * (1 + 2 * nu) + (1 + nu) * z / far - 0.5 * std::pow(z / far, 3)).margin(0.005));
  }
  for (const double r : {1.001, 1.5})
    CHECK(uniform_stress(r, 0, nu).radial == Approx((1 - 2 * nu) / (2 * r * r)).epsilon(1e-4));
  for (const double r : {0.1, 0.5, 0.9}) CHECK(uniform_stress(r, 0, nu).axial == Approx(-1).margin(0.03));
}

TEST_CASE("A patch scales with its mean pressure and its radius", "[half_space_patch]") {
  const double a = 0.5, force = 300, nu = 0.3, mean = force / (M_PI * a * a);
  CHECK(patch_stress(PressureShape::hertz, a, force, 1.0001 * a, 0, nu).radial ==
        Approx((1 - 2 * nu) / 3 * 1.5 * mean).epsilon(1e-3));
  CHECK(patch_stress(PressureShape::uniform, a, force, 1.0001 * a, 0, nu).radial ==
        Approx((1 - 2 * nu) / 2 * mean).epsilon(1e-3));
  // Far below any of them the force acts as at a point: Boussinesq, axial stress -3 F / (2 pi z^2).
  CHECK(patch_stress(PressureShape::hertz, a, force, 0, 20, nu).axial ==
        Approx(-3 * force / (2 * M_PI * 400)).epsilon(2e-3));
}
