// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/view_port.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;

TEST_CASE("A buccolingual section shows buccal left, occlusal up, true to scale", "[view_port]") {
  SceneView view{.towards_eye = -Vec3::UnitX(), .up = Vec3::UnitZ()};
  view.surfaces.push_back({{{{0, -4, 0}, {0, 4, 0}, {0, 0, 6}}, {0, 0, 0}, {{0, 1, 2}}}});
  const ViewPort port(view, {0, 0, 200, 100}, 0.1);
  CHECK(port.at({0, 4, 3}).x == Approx(100 - 40));
  CHECK(port.at({9, 4, 3}).x == Approx(100 - 40));  // along the eye: nothing changes
  CHECK(port.at({0, 0, 6}).y == Approx(50 - 30));
  CHECK(port.body().width() == Approx(80));
  CHECK(port.direction(Vec3::UnitY()).x == Approx(-1));
  CHECK(port.direction(Vec3::UnitZ()).y == Approx(-1));
}

TEST_CASE("A view that is cut shows the middle of its cut", "[view_port]") {
  SceneView view;
  view.surfaces.push_back({{{{-10, -10, 0}, {10, -10, 0}, {0, 10, 0}}, {0, 0, 0}, {{0, 1, 2}}}});
  view.shown = {{2, 2, -1}, {4, 30, 1}};
  const ViewPort port(view, {0, 0, 100, 100}, 1);
  CHECK(port.body().width() == Approx(2));
  CHECK(port.body().height() == Approx(8));  // cut, and never beyond the body
  CHECK(port.at({3, 6, 0}).x == Approx(50));
}
