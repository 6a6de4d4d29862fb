// SPDX-License-Identifier: AGPL-3.0-or-later

#include <algorithm>
#include <catch2/catch.hpp>

#include "mesh/shape/cell_sizes.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/flat_stack.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/size_request.hpp"

using namespace crownproof;

namespace {

Bite ball(const Vec3& point, double radius) {
  Contact contact{.at = "ball", .point = point};
  contact.force_N = 100;
  contact.radius_mm = radius;
  return {"ball", {contact}};
}

/// The smallest size asked for at a point by a seed that covers it.
double size_at(const SizeRequest& request, const Vec3& point) {
  double size = request.surface_size_mm;
  for (const SizeSeed& seed : request.seeds)
    if ((seed.centre - point).norm() <= seed.radius_mm) size = std::min(size, seed.size_mm);
  return size;
}

}  // namespace

TEST_CASE("cells are small under a contact and on the intaglio below it", "[casefile][size_request]") {
  const Domain stack = flat_stack({.ceramic_thickness_mm = 1.0, .cement_thickness_mm = 0.08});
  const SizeRequest request = size_for(stack, {ball({1, 2, 1.08}, 0.5)}, 150000);
  CHECK(size_at(request, {1, 2, 1.08}) == Approx(0.125));
  CHECK(size_at(request, {1.6, 2, 1.08}) == Approx(0.125));  // up to 1.3 radii
  // The under side of the ceramic lies on top of the cement, at z = 0.08; 0.14 (radius + thickness).
  CHECK(size_at(request, {1, 2, 0.08}) == Approx(0.21));
  CHECK(size_at(request, {4, 2, 1.08}) == request.surface_size_mm);
}

TEST_CASE("a thinner wall asks for smaller cells below the contact", "[casefile][size_request]") {
  const auto below = [](double thickness) {
    const Domain stack = flat_stack({.ceramic_thickness_mm = thickness});
    return size_at(size_for(stack, {ball({0, 0, thickness}, 0.5)}, 150000), {0, 0, 0});
  };
  CHECK(below(0.5) < below(1.0));
  CHECK(below(1.0) < below(1.5));
}

TEST_CASE("more cells come from a smaller scale of all sizes", "[casefile][size_request]") {
  const Domain stack = flat_stack({});
  const auto scale = [&](int cells) { return size_for(stack, {ball({0, 0, 1}, 0.5)}, cells).scale; };
  CHECK(scale(30000) > scale(150000));
  CHECK(scale(150000) > scale(600000));
}
