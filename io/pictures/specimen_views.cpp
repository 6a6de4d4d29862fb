// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/specimen_views.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/pictures/bite_view.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/bite.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {
namespace {

/// A specimen has 1, 2, 4 or 8 copies: that of its planes of symmetry.
int planes_of_symmetry(const BiteView& b) {
  return static_cast<int>(std::lround(std::log2(b.copies)));
}

SceneView specimen_view(const BiteView& b, const Vec3& towards_eye) {
  SceneView view = b.empty_view();
  view.towards_eye = towards_eye;
  const ValueSurface outside =
      with_mirror_images(surface_of(b.mesh, b.skin.outside, b.value()), planes_of_symmetry(b));
  view.surfaces.push_back({outside, true, true});
  mark_highest(view, outside, b);
  return view;
}

}  // namespace

SceneView loaded_side_view(const BiteView& b) {
  SceneView view = specimen_view(b, Vec3(-0.35, -0.9, 0.8));
  for (const Contact& contact : b.asked.contacts)
    view.marks.push_back({contact.point, fmt::format("{:g} N", contact.force_N), false});
  return view;
}

SceneView tensile_side_view(const BiteView& b) {
  return specimen_view(b, Vec3(-0.35, -0.9, -0.8));
}

SceneView specimen_section(const BiteView& b) {
  SceneView view = b.empty_view();
  view.towards_eye = -Vec3::UnitY();
  Vec3 at = b.deciding_point();
  double reach = 0;
  for (const Vec3& p : b.mesh.nodes) reach = std::max(reach, p.y());
  // A little inside the plane of symmetry, where no cell is cut.
  at.y() = std::clamp(at.y(), -0.999 * reach, 0.999 * reach);
  if (planes_of_symmetry(b) > 0) at.y() = std::max(at.y(), 0.001 * reach);
  ValueSurface cut = section_of(b.mesh, b.region, at, Vec3::UnitY(), b.value());
  const double plane = at.y();
  for (Vec3& p : cut.points) p.y() = 0;  // so that mirroring leaves it in its plane
  cut = with_mirror_images(std::move(cut), planes_of_symmetry(b));
  for (Vec3& p : cut.points) p.y() = plane;
  view.surfaces.push_back({cut, true, false});
  mark_deciding(view, b);
  for (SceneMark& mark : view.marks) mark.at.y() = plane;
  return view;
}

}  // namespace crownproof
