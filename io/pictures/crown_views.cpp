// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/crown_views.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "io/pictures/bite_view.hpp"
#include "io/record/run_record.hpp"
#include "mesh/box.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/bite.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {
namespace {

constexpr double white = 1.0, black = 0.0, die_grey = 0.87, cement_grey = 0.62;

double nothing(int) {
  return 0;
}

/// Outlines of the patches that the bite presses on, with their forces.
void mark_contacts(SceneView& view, const BiteView& b, const ValueSurface& outside) {
  for (const Contact& contact : b.asked.contacts) {
    const auto radii = [&](const Vec3& p) { return radii_from(contact, p); };
    const std::vector<Segment> outline = level_lines(outside, radii, 1);
    view.lines.push_back({outline, white, 1.6});
    view.lines.push_back({outline, black, 0.8, 0.07});
    view.marks.push_back({contact.point, fmt::format("{:.3g} N", contact.force_N), false});
  }
}

/// The outside faces of all other bodies.
std::vector<int> other_faces(const BiteView& b) {
  std::vector<int> faces;
  for (std::size_t r = 0; r < b.mesh.region_names.size(); ++r) {
    if (static_cast<int>(r) == b.region) continue;
    const auto outside = region_surface(b.mesh, b.mesh.region_names[r]).outside;
    faces.insert(faces.end(), outside.begin(), outside.end());
  }
  return faces;
}

Box outer_box(const BiteView& b) {
  Box box;
  for (const int f : b.skin.outside)
    for (const int node : b.mesh.faces[f].nodes) box.extend(b.mesh.nodes[node]);
  return box;
}

/// Round the contacts and the point that decides: of a wide stack the rest says nothing.
std::vector<Vec3> loaded_region(const BiteView& b) {
  const Box crown = outer_box(b);
  Box loaded;
  double radius = 0;
  for (const Contact& contact : b.asked.contacts) {
    loaded.extend(contact.point);
    radius = std::max(radius, contact.radius_mm * contact.stretch);
  }
  loaded.extend(b.deciding_point());
  const double thickness = crown.sizes().z(), beside = std::max(3 * radius, 2 * thickness);
  return {loaded.min() - Vec3(beside, beside, 1.5 * thickness + 0.5),
          loaded.max() + Vec3(beside, beside, 0.2)};
}

}  // namespace

SceneView outside_view(const BiteView& b) {
  SceneView view = b.empty_view();
  view.towards_eye = Vec3(-0.35, 0.6, 1.15);
  const ValueSurface outside = surface_of(b.mesh, b.skin.outside, b.value());
  view.surfaces.push_back({outside, true, true});
  view.surfaces.push_back({surface_of(b.mesh, other_faces(b), nothing), false, true, die_grey});
  view.lines.push_back({rim_of(b.mesh, b.skin.outside), black, 0.8});
  const bool on_a_rim = b.bite.tension.governing.node < 0;
  if (on_a_rim)
    mark_deciding(view, b);
  else
    mark_highest(view, outside, b);
  mark_contacts(view, b, outside);
  return view;
}

SceneView section_view(const BiteView& b) {
  SceneView view = b.empty_view();
  view.towards_eye = -Vec3::UnitX();
  const Vec3 at = b.deciding_point();
  for (int r = 0; r < static_cast<int>(b.mesh.region_names.size()); ++r) {
    const bool studied = r == b.region;
    const double grey = b.mesh.region_names[r] == "cement" ? cement_grey : die_grey;
    view.surfaces.push_back(
        {section_of(b.mesh, r, at, Vec3::UnitX(), studied ? b.value() : nothing), studied, false, grey});
  }
  std::vector<int> all(b.mesh.faces.size());
  std::iota(all.begin(), all.end(), 0);
  const auto mesial_to_distal = [](const Vec3& p) { return p.x(); };
  view.lines.push_back({level_lines(surface_of(b.mesh, all, nothing), mesial_to_distal, at.x()), black, 0.5});
  mark_deciding(view, b);
  if (view.sides.empty()) view.shown = loaded_region(b);
  return view;
}

SceneView section_of_crown(const BiteView& b) {
  SceneView view = section_view(b);
  if (!view.shown.empty()) return view;
  const Box crown = outer_box(b);
  const double of_the_die = 1;  // mm
  view.shown = {crown.min() - of_the_die * Vec3::UnitZ(), crown.max()};
  return view;
}

std::string section_place(const BiteView& b) {
  const double x = b.deciding_point().x();
  if (std::abs(x) < 0.05) return "through the middle";
  const bool tooth = !b.sides().empty();
  return fmt::format("{:.1f} mm {} the middle", std::abs(x),
                     !tooth  ? "beside"
                     : x < 0 ? "mesial of"
                             : "distal of");
}

SceneView intaglio_view(const BiteView& b) {
  SceneView view = b.empty_view();
  view.towards_eye = -Vec3::UnitZ();
  view.up = Vec3::UnitY();
  const bool bonded = !b.skin.interfaces.empty();
  const ValueSurface inside = surface_of(b.mesh, bonded ? b.skin.interfaces : b.skin.outside, b.value());
  view.surfaces.push_back({inside, true, true});
  if (bonded) {
    view.surfaces.push_back({surface_of(b.mesh, b.skin.outside, nothing), false, true, die_grey});
    view.lines.push_back({rim_of(b.mesh, b.skin.interfaces), black, 0.8});
  }
  mark_highest(view, inside, b);
  return view;
}

}  // namespace crownproof
