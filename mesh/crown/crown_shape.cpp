// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/crown/crown_shape.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

#include "mesh/crown/crown_landmarks.hpp"
#include "mesh/crown/occlusal_table.hpp"
#include "mesh/crown/scallop.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/nearest.hpp"
#include "mesh/shape/smooth_minmax.hpp"

namespace crownproof {
namespace {

using Shared = std::shared_ptr<const CrownDesign>;
constexpr int base_edge = 0, die_edge = 1, crown_edge = 2;
constexpr double finish_line_band = 0.4;  // mm of outer surface above the rim
constexpr double margin_size = 0.22;  // mm; resolves the rim's stress without drowning the mesh (measured)

Ring base_ring(const Shared& d) {
  const Preparation& p = d->preparation;
  const double z = -d->root_height_mm, a = p.root_mesiodistal(z), b = p.root_buccolingual(z);
  return {"base_edge", [outline = p.outline, a, b, z](double t) { return outline.point(t, a, b, z); }};
}

Ring die_ring(const Shared& d) {
  return {"die_margin", [d](double t) {
            const Preparation& p = d->preparation;
            return p.outline.point(t, p.neck_mesiodistal, p.neck_buccolingual, 0);
          }};
}

/// The die's ring moved by the cement along the preparation's exact normal.
Ring crown_ring(const Shared& d, const Ring& die) {
  return {"crown_margin", [d, die = die.point](double t) -> Vec3 {
            const Vec3 p = die(t);
            return p + d->cement_thickness_mm * unit_normal(std::cref(d->preparation), p);
          }};
}

/// First guesses for a cap: rays from an inner point, fanned from the ring up to the vertical.
std::function<Vec3(double, double)> fan(const ImplicitField& field, const Ring& ring, const Vec3& centre) {
  return [field, ring = ring.point, centre](double t, double s) -> Vec3 {
    const Vec3 edge = ring(t);
    if (s <= 0) return edge;
    const Vec3 to_edge = edge - centre;
    const double flat = std::hypot(to_edge.x(), to_edge.y());
    const double low = std::atan2(to_edge.z(), flat), rise = low + s * (0.5 * std::numbers::pi - low);
    const Vec3 direction{to_edge.x() / flat * std::cos(rise), to_edge.y() / flat * std::cos(rise),
                         std::sin(rise)};
    return leave_body(field, centre, direction, 40);
  };
}

Patch base_patch(const Shared& d, const Ring& ring) {
  const double z = -d->root_height_mm;
  Patch patch;
  patch.field = [z](const Vec3& x) { return FieldSample{z - x.z(), {0, 0, -1}}; };
  patch.first_ring = base_edge;
  patch.start = [point = ring.point, z](double t, double s) -> Vec3 {
    return (1 - s) * point(t) + s * Vec3{0, 0, z};
  };
  patch.face_name = [](const Vec3&) { return std::string("base"); };
  return patch;
}

Patch root_patch(const Shared& d, const Ring& low, const Ring& high) {
  Patch patch;
  patch.field = [d](const Vec3& x) { return d->preparation.root_field(x); };
  patch.first_ring = base_edge;
  patch.last_ring = die_edge;
  patch.start = [a = low.point, b = high.point](double t, double s) -> Vec3 {
    return (1 - s) * a(t) + s * b(t);
  };
  patch.face_name = [](const Vec3&) { return std::string("root"); };
  return patch;
}

Patch preparation_patch(const Shared& d, const Ring& ring) {
  Patch patch;
  patch.field = [d](const Vec3& x) { return d->preparation(x); };
  patch.first_ring = die_edge;
  // Seen from inside the root, finish line, wall and top hide nothing of each other.
  const Vec3 inside_root{0, 0,
                         -0.5 * std::min(d->preparation.neck_mesiodistal, d->preparation.neck_buccolingual)};
  patch.start = fan(patch.field, ring, inside_root);
  const std::string name = d->cement_thickness_mm > 0 ? "preparation" : "intaglio";
  patch.face_name = [name](const Vec3&) { return name; };
  return patch;
}

std::string outer_face_name(const CrownDesign& d, const Vec3& at) {
  if (at.z() < d.anatomy.mesiodistal.neck_z + finish_line_band) return "finish_line";
  const DualPoint p(at);
  return d.anatomy.relief_field(p).v > d.anatomy.axial_field(p).v ? "occlusal" : "axial";
}

Patch outer_patch(const Shared& d, const Ring& ring, int ring_index) {
  Patch patch;
  patch.field = [d](const Vec3& x) { return d->anatomy(x); };
  patch.first_ring = ring_index;
  patch.start = fan(patch.field, ring, Vec3(0, 0, d->cement_thickness_mm));
  patch.face_name = [d](const Vec3& x) { return outer_face_name(*d, x); };
  return patch;
}

std::vector<std::pair<Vec3, double>> margin_points(const Ring& ring) {
  const int n = 120;  // about every 0.3 mm
  std::vector<std::pair<Vec3, double>> points;
  for (int i = 0; i < n; ++i) points.emplace_back(ring.point(i / double{n}), margin_size);
  return points;
}

void lay_over(Domain& domain, const std::shared_ptr<const Scallop>& scallop) {
  domain.warp = {[scallop](const Vec3& x) { return scallop->to(x); },
                 [scallop](const Vec3& x) { return scallop->from(x); }};
  for (auto& margin : domain.margins) margin.first = scallop->to(margin.first);
}

double highest(const std::vector<Landmark>& landmarks) {
  double z = 0;
  for (const Landmark& mark : landmarks) z = std::max(z, mark.point.z());
  return z;
}

}  // namespace

Domain crown_shape(const CrownDesign& design, const ToothClass& tooth) {
  const auto d = std::make_shared<const CrownDesign>(design);
  const bool cemented = design.cement_thickness_mm > 0;
  Domain domain;
  domain.rings = {base_ring(d), die_ring(d)};
  if (cemented) domain.rings.push_back(crown_ring(d, domain.rings[die_edge]));
  const int rim = cemented ? crown_edge : die_edge;

  domain.patches = {base_patch(d, domain.rings[base_edge]),
                    root_patch(d, domain.rings[base_edge], domain.rings[die_edge]),
                    preparation_patch(d, domain.rings[die_edge]), outer_patch(d, domain.rings[rim], rim)};
  domain.bodies = {{"crown", {{3, false, false}, {2, true, cemented}}},
                   {"die", {{0, false, false}, {1, false, false}, {2, false, false}}}};
  if (cemented) {
    domain.layers = {
        {"cement", 2, design.cement_thickness_mm, die_edge, crown_edge, "intaglio", "cement_margin"}};
  }
  domain.landmarks = crown_landmarks(design, tooth);
  domain.on_occlusal_table = [d, table = OcclusalTable(domain.landmarks)](const Vec3& x) {
    return table.contains(x) && outer_face_name(*d, x) == "occlusal";
  };
  domain.outer_patch = 3;
  domain.fossa = design.fossa;
  domain.heights = {highest(domain.landmarks), design.abutment_height_mm};
  domain.margins = margin_points(domain.rings[rim]);
  if (design.scallop_mm > 0) lay_over(domain, std::make_shared<const Scallop>(design, design.scallop_mm));
  return domain;
}

Domain crown_shape(const CrownParameters& parameters) {
  return crown_shape(design_crown(parameters), tooth_class(parameters.tooth));
}

}  // namespace crownproof
