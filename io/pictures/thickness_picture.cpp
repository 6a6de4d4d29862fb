// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/thickness_picture.hpp"

#include <cctype>

#include <fmt/format.h>

#include "io/pictures/bite_view.hpp"
#include "io/pictures/picture_scale.hpp"
#include "io/record/run_record.hpp"
#include "io/text/version.hpp"
#include "io/words/thickness_words.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/face_distance.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_surface.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/result/fields.hpp"

namespace crownproof {
namespace {

/// Nearest distance from each node of the outer faces to the intaglio.
std::vector<double> thickness_of(const TetMesh& mesh, const RegionSurface& skin) {
  const FaceTree intaglio(mesh, skin.interfaces);
  std::vector<double> thickness(mesh.nodes.size(), -1.0);
  for (const int f : skin.outside)
    for (const int node : mesh.faces[f].nodes)
      if (thickness[node] < 0) thickness[node] = intaglio.nearest(mesh.nodes[node]).distance_mm;
  return thickness;
}

void mark_place(SceneView& view, const ThicknessAt& at, const std::string& which) {
  view.marks.push_back({at.point, fmt::format("{} {:.2f} mm", which, at.thickness_mm)});
}

}  // namespace

std::optional<Scene> thickness_picture(const VariantRecord& variant, const Fields& fields) {
  const ThicknessReport& report = variant.report.thickness;
  if (report.table_thinnest.name.empty()) return std::nullopt;
  const TetMesh& mesh = fields.mesh;
  const RegionSurface skin = region_surface(mesh, region_under_study(*variant.model));
  const std::vector<double> thickness = thickness_of(mesh, skin);
  const ValueSurface outside = surface_of(mesh, skin.outside, [&](int node) { return thickness[node]; });
  SceneView view{
      .sides = {{Vec3::UnitY(), "B"}, {-Vec3::UnitY(), "L"}, {-Vec3::UnitX(), "M"}, {Vec3::UnitX(), "D"}}};
  view.surfaces = {{outside, true, true}};
  mark_place(view, report.table_thinnest, "thinnest");
  mark_place(view, report.table_thickest, "thickest");
  // Walls may be much thicker than what is bitten on, whose range the colours are for.
  const double highest = 1.25 * report.table_thickest.thickness_mm;
  Scene scene{.title = variant.model->title,
              .subtitle = fmt::format(
                  "{}{}wall thickness, seen from above; thinnest and thickest between cusp tips and pits",
                  variant.label, variant.label.empty() ? "" : ": "),
              .note = thickness_words(report, variant.asked_thickness_mm) + ".",
              .caution = caution()};
  scene.scale = {.title = "Nearest distance from the outer surface to the intaglio, mm",
                 .highest = round_eighths(highest),
                 .low_is_strong = true};
  if (variant.asked_thickness_mm)
    scene.scale.marks = {
        {*variant.asked_thickness_mm, fmt::format("asked {:g} mm", *variant.asked_thickness_mm)}};
  scene.note.front() = static_cast<char>(std::toupper(scene.note.front()));
  scene.views = {std::move(view)};
  return scene;
}

}  // namespace crownproof
