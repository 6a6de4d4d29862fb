// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/shape/domain.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/find_root.hpp"

namespace crownproof {
namespace {

/// Lowest and highest z of a patch, with room to spare, from its first guesses.
struct HeightRange {
  double low = 0, high = 0;
};

HeightRange height_range(const Patch& patch) {
  HeightRange range{patch.start(0, 0).z(), patch.start(0, 0).z()};
  for (int i = 0; i < 16; ++i) {
    for (int j = 0; j <= 8; ++j) {
      const double z = patch.start(i / 16.0, j / 8.0).z();
      range.low = std::min(range.low, z);
      range.high = std::max(range.high, z);
    }
  }
  const double room = 3.0;  // cusps may stand above the first guesses
  return {range.low - 0.01, range.high + room};
}

/// A point counts only if the other outward patches of the body under study do not cut it away (the top plane
/// of a flat stack goes on beyond its side).
bool inside_other_patches(const Domain& domain, const Vec3& point) {
  for (const Body& body : domain.bodies) {
    if (body.region != domain.outer_region) continue;
    for (const PatchUse& use : body.boundary) {
      if (use.patch == domain.outer_patch || use.flipped || use.offset_copy) continue;
      if (domain.patches[use.patch].field(point).value > 1e-9) return false;
    }
  }
  return true;
}

ImplicitField rotated_field(const ImplicitField& field, const Mat3& rotation) {
  return [field, rotation](const Vec3& x) {
    FieldSample s = field(rotation.transpose() * x);
    s.gradient = rotation * s.gradient;
    return s;
  };
}

}  // namespace

std::optional<Landmark> drop_on_outer_surface(const Domain& domain, double x, double y) {
  const Patch& patch = domain.patches[domain.outer_patch];
  const auto value = [&](double z) { return patch.field({x, y, z}).value; };
  const HeightRange range = height_range(patch);
  const double step = 0.02;  // mm; finer than any groove is wide
  // From above: under an overhang, or in a fissure, the outside is what a ball meets first.
  double above = range.high;
  if (value(above) <= 0) return std::nullopt;
  while (above > range.low && value(above - step) > 0) above -= step;
  if (above <= range.low) return std::nullopt;
  const auto is_outside = [&](double z) { return value(z) > 0; };
  const Vec3 point{x, y, bisect(is_outside, {above, above - step}, 60).middle()};
  if (!inside_other_patches(domain, point)) return std::nullopt;
  return Landmark{"", point, unit_normal(patch.field, point)};
}

Domain rotated(const Domain& domain, const Mat3& rotation) {
  Domain turned = domain;
  for (Ring& ring : turned.rings) {
    ring.point = [point = ring.point, rotation](double t) -> Vec3 { return rotation * point(t); };
  }
  for (Patch& patch : turned.patches) {
    patch.field = rotated_field(patch.field, rotation);
    patch.start = [start = patch.start, rotation](double t, double s) -> Vec3 {
      return rotation * start(t, s);
    };
    patch.face_name = [name = patch.face_name, rotation](const Vec3& x) {
      return name(rotation.transpose() * x);
    };
  }
  for (Landmark& landmark : turned.landmarks) {
    landmark.point = rotation * landmark.point;
    landmark.normal = rotation * landmark.normal;
  }
  if (turned.fossa) turned.fossa = rotation * *turned.fossa;
  if (domain.on_occlusal_table)
    turned.on_occlusal_table = [on_table = domain.on_occlusal_table, back = Mat3(rotation.transpose())](
                                   const Vec3& x) { return on_table(back * x); };
  for (auto& margin : turned.margins) margin.first = rotation * margin.first;
  const auto turned_map = [rotation](const std::function<Vec3(const Vec3&)>& map) {
    return [map, rotation](const Vec3& x) -> Vec3 { return rotation * map(rotation.transpose() * x); };
  };
  if (domain.warp) turned.warp = Warp{turned_map(domain.warp->to), turned_map(domain.warp->from)};
  return turned;
}

int landmark_index(const Domain& domain, const std::string& name) {
  const auto found = std::find_if(domain.landmarks.begin(), domain.landmarks.end(),
                                  [&](const Landmark& l) { return l.name == name; });
  return found == domain.landmarks.end() ? -1 : static_cast<int>(found - domain.landmarks.begin());
}

}  // namespace crownproof
