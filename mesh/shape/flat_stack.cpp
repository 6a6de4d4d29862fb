// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/shape/flat_stack.hpp"

#include <cmath>
#include <numbers>

#include <fmt/core.h>

#include "mesh/geometry_error.hpp"
#include "mesh/shape/domain.hpp"

namespace crownproof {
namespace {

void require_size(const char* what, double value, double smallest, double largest, const char* unit) {
  if (value >= smallest && value <= largest) return;  // also refuses NaN
  throw GeometryError(
      fmt::format("The {} of the flat stack is {:g} {}; it must lie between {:g} and {:g} {}.", what, value,
                  unit, smallest, largest, unit));
}

void check(const FlatStackParameters& p) {
  require_size("radius", p.radius_mm, 0.5, 100, "mm");
  require_size("ceramic thickness", p.ceramic_thickness_mm, 0.05, 50, "mm");
  require_size("die thickness", p.die_thickness_mm, 0.05, 100, "mm");
  if (p.cement_thickness_mm != 0)  // as its key has it, in micrometres
    require_size("cement thickness (0 for none)", 1e3 * p.cement_thickness_mm, 5, 500, "um");
}

Ring circle(std::string name, double radius, double z) {
  return {std::move(name), [radius, z](double t) {
            const double angle = 2 * std::numbers::pi * t;
            return Vec3{radius * std::cos(angle), radius * std::sin(angle), z};
          }};
}

/// A flat disc at height z that closes in its centre; `up` is +1 or -1, the direction of its normal.
Patch disc(const Ring& ring, int ring_index, double z, double up, const std::string& name) {
  Patch patch;
  patch.field = [z, up](const Vec3& x) { return FieldSample{up * (x.z() - z), {0, 0, up}}; };
  patch.first_ring = ring_index;
  patch.start = [point = ring.point, z](double t, double s) -> Vec3 {
    return (1 - s) * point(t) + s * Vec3{0, 0, z};
  };
  patch.face_name = [name](const Vec3&) { return name; };
  return patch;
}

/// The side of a cylinder between two circles.
Patch wall(const std::vector<Ring>& rings, int low, int high, double radius, const std::string& name) {
  Patch patch;
  patch.field = [radius](const Vec3& x) {
    const double r = std::hypot(x.x(), x.y());
    if (r == 0) return FieldSample{-radius, Vec3::UnitX()};
    return FieldSample{r - radius, {x.x() / r, x.y() / r, 0}};
  };
  patch.first_ring = low;
  patch.last_ring = high;
  patch.start = [a = rings[low].point, b = rings[high].point](double t, double s) -> Vec3 {
    return (1 - s) * a(t) + s * b(t);
  };
  patch.face_name = [name](const Vec3&) { return name; };
  return patch;
}

}  // namespace

Domain flat_stack(const FlatStackParameters& p) {
  check(p);
  const double gap = p.cement_thickness_mm;
  const bool cemented = gap > 0;
  const double r = p.radius_mm, top = gap + p.ceramic_thickness_mm, bottom = -p.die_thickness_mm;

  Domain d;
  d.rings = {circle("base_edge", r, bottom), circle("die_edge", r, 0), circle("top_edge", r, top)};
  if (cemented) d.rings.push_back(circle("ceramic_edge", r, gap));
  const int base_edge = 0, die_edge = 1, top_edge = 2, ceramic_edge = cemented ? 3 : die_edge;

  // Bonded directly, the one interface bears the name that stress and thickness look for: the intaglio.
  d.patches = {disc(d.rings[base_edge], base_edge, bottom, -1, "base"),
               wall(d.rings, base_edge, die_edge, r, "die_side"),
               disc(d.rings[die_edge], die_edge, 0, +1, cemented ? "preparation" : "intaglio"),
               wall(d.rings, ceramic_edge, top_edge, r, "side"),
               disc(d.rings[top_edge], top_edge, top, +1, "top")};
  d.bodies = {{"crown", {{3, false, false}, {4, false, false}, {2, true, cemented}}},
              {"die", {{0, false, false}, {1, false, false}, {2, false, false}}}};
  if (cemented) d.layers = {{"cement", 2, gap, die_edge, ceramic_edge, "intaglio", "cement_margin"}};
  d.outer_patch = 4;
  const Vec3 centre{0, 0, top};
  d.landmarks = {{"centre", centre, Vec3::UnitZ()}};
  d.fossa = centre;
  return d;
}

}  // namespace crownproof
