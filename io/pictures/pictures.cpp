// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/pictures.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "io/pictures/picture_scale.hpp"
#include "io/record/run_record.hpp"
#include "io/text/text_layout.hpp"
#include "io/text/version.hpp"
#include "io/words/names.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/region_surface.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/result/report.hpp"
#include "solver/strength/breaking.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/stress/bite_fields.hpp"
#include "solver/stress/region_stress.hpp"
#include "solver/stress/rim_point.hpp"
#include "solver/stress/stress_measure.hpp"

namespace crownproof {
namespace {

constexpr double white = 1.0, black = 0.0, die_grey = 0.82, cement_grey = 0.55;

/// What the pictures of one bite have in common.
struct BiteView {
  BiteView(const VariantRecord& v, const Fields& f, std::size_t index)
      : variant(v),
        mesh(f.mesh),
        bite(v.report.bites[index]),
        copies(f.copies),
        asked(v.model->bites[index]),
        region(mesh.region_index(region_under_study(*v.model))),
        skin(region_surface(mesh, region_under_study(*v.model))),
        shown(mesh.nodes.size(), 0.0) {
    const RegionMaterial& material = material_under_study(*v.model);
    const BiteFields& fields = f.bites[index];
    const double most = fields.rims.empty() ? std::numeric_limits<double>::infinity() : contact_tension();
    for (const int node : fields.stress.nodes[region]) {
      const Tension tension = tension_of(material, fields.stress.at(region, node));
      shown[node] = weakest_way(material, tension).tension_MPa;
      if (fields.node_zone[node] == Zone::contact) shown[node] = std::min(shown[node], most);
      highest = std::max(highest, shown[node]);
    }
  }
  /// Beside contacts the rims decide; a node there may show more than there is.
  double contact_tension() const {
    for (const ZonePeak& peak : bite.peaks)
      if (peak.zone == Zone::contact) return peak.tension_MPa;
    return std::numeric_limits<double>::infinity();
  }
  NodeValue value() const {
    return [this](int node) { return shown[node]; };
  }

  const VariantRecord& variant;
  const TetMesh& mesh;
  const BiteReport& bite;
  int copies;
  const Bite& asked;
  int region;
  RegionSurface skin;
  std::vector<double> shown;  ///< of each node, MPa: the tension that decides there
  double highest = 0;
};

std::string verdict_words(Verdict verdict) {
  return verdict == Verdict::undecided ? "undecided" : verdict_name(verdict) + " the limit";
}

Scene scene_of(const BiteView& b, const std::string& what) {
  const ZonePeak& g = b.bite.tension.governing;
  Scene scene;
  scene.title =
      padded(b.variant.model->title, std::min<std::size_t>(90, display_width(b.variant.model->title)));
  scene.subtitle = fmt::format("{}{} {}: {}", b.variant.label.empty() ? "" : b.variant.label + ", ",
                               b.variant.model->specimen ? "test" : "bite", b.bite.name, what);
  scene.note =
      fmt::format("Decides: {:.0f} MPa ({}), {} at {:.0f} MPa; safety factor {:.2f}, asked {:g}: {}",
                  g.tension_MPa, zone_name(g.zone), mechanism_words(g.mechanism), g.strength_MPa,
                  g.safety_factor, b.variant.model->requirement.safety_factor, verdict_words(b.bite.verdict));
  if (!(g.tension_MPa > no_tension_MPa)) scene.note = "No tension anywhere.";
  scene.caution = caution();
  scene.bar_title = bar_title(*b.variant.model);
  scene.highest = round_up(b.highest);
  scene.bar_marks = bar_limits(*b.variant.model);
  return scene;
}

/// A ring with the value at the highest place of a surface; says so if that place is turned away.
void mark_highest(SceneView& view, const ValueSurface& surface) {
  const auto top = highest(surface);
  if (!top) return;
  const bool seen = is_seen(surface, top->at, view.towards_eye.normalized());
  view.marks.push_back({top->at, fmt::format("{:.0f} MPa{}", top->value, seen ? "" : " (far side)")});
}

/// Outlines of the patches that the bite presses on, with their forces.
void mark_contacts(SceneView& view, const BiteView& b, const ValueSurface& outside, bool with_forces) {
  for (const Contact& contact : b.asked.contacts) {
    const auto radii = [&](const Vec3& p) { return radii_from(contact, p); };
    const std::vector<Segment> outline = level_lines(outside, radii, 1);
    view.lines.push_back({outline, white, 5});
    view.lines.push_back({outline, black, 2.5, 0.07});
    if (with_forces) view.marks.push_back({contact.point, fmt::format("{:.3g} N", contact.force_N), false});
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

SceneView crown_view(const BiteView& b) {
  SceneView view;
  view.towards_eye = Vec3(-0.35, 0.6, 1.15);
  view.up = Vec3::UnitZ();
  const ValueSurface outside = surface_of(b.mesh, b.skin.outside, b.value());
  view.surfaces.push_back({outside, true, true});
  view.surfaces.push_back(
      {surface_of(b.mesh, other_faces(b), [](int) { return 0.0; }), false, true, die_grey});
  mark_contacts(view, b, outside, true);
  mark_highest(view, outside);
  return view;
}

SceneView section_view(const BiteView& b) {
  SceneView view;
  view.towards_eye = -Vec3::UnitX();
  view.up = Vec3::UnitZ();
  const int worst = b.bite.tension.governing.node;
  const Vec3 at = worst >= 0 ? b.mesh.nodes[worst] : b.bite.tension.governing.at;
  for (int r = 0; r < static_cast<int>(b.mesh.region_names.size()); ++r) {
    const bool studied = r == b.region;
    const double grey = b.mesh.region_names[r] == "cement" ? cement_grey : die_grey;
    view.surfaces.push_back({section_of(
                                 b.mesh, r, at, Vec3::UnitX(), studied ? b.value() : [](int) { return 0.0; }),
                             studied, false, grey});
  }
  std::vector<int> all(b.mesh.faces.size());
  for (std::size_t f = 0; f < all.size(); ++f) all[f] = static_cast<int>(f);
  const ValueSurface boundary = surface_of(b.mesh, all, [](int) { return 0.0; });
  view.lines.push_back({level_lines(
                            boundary, [](const Vec3& p) { return p.x(); }, at.x()),
                        black, 2});
  if (worst >= 0) view.marks.push_back({at, fmt::format("{:.0f} MPa", b.shown[worst])});
  return view;
}

SceneView intaglio_view(const BiteView& b) {
  SceneView view;
  view.towards_eye = -Vec3::UnitZ();
  view.up = Vec3::UnitY();
  const bool bonded = !b.skin.interfaces.empty();
  const ValueSurface inside = surface_of(b.mesh, bonded ? b.skin.interfaces : b.skin.outside, b.value());
  view.surfaces.push_back({inside, true, true});
  if (bonded)
    view.surfaces.push_back(
        {surface_of(b.mesh, b.skin.outside, [](int) { return 0.0; }), false, true, die_grey});
  mark_highest(view, inside);
  return view;
}

/// A specimen has 1, 2, 4 or 8 copies: that of its planes of symmetry.
int planes_of_symmetry(const BiteView& b) {
  return static_cast<int>(std::lround(std::log2(b.copies)));
}

SceneView specimen_view(const BiteView& b, const Vec3& towards_eye) {
  SceneView view;
  view.towards_eye = towards_eye;
  view.up = Vec3::UnitZ();
  const ValueSurface outside =
      with_mirror_images(surface_of(b.mesh, b.skin.outside, b.value()), planes_of_symmetry(b));
  view.surfaces.push_back({outside, true, true});
  if (b.highest > no_tension_MPa) mark_highest(view, outside);
  return view;
}

/// Along the specimen, through the point that decides; a little inside the plane of symmetry, where no cell
/// is cut.
SceneView specimen_section(const BiteView& b) {
  SceneView view;
  view.towards_eye = -Vec3::UnitY();
  view.up = Vec3::UnitZ();
  const int worst = b.bite.tension.governing.node;
  Vec3 at = worst >= 0 ? b.mesh.nodes[worst] : b.bite.tension.governing.at;
  double reach = 0;
  for (const Vec3& p : b.mesh.nodes) reach = std::max(reach, p.y());
  at.y() = std::clamp(at.y(), -0.999 * reach, 0.999 * reach);
  if (planes_of_symmetry(b) > 0) at.y() = std::max(at.y(), 0.001 * reach);
  ValueSurface cut = section_of(b.mesh, b.region, at, Vec3::UnitY(), b.value());
  const double plane = at.y();
  for (Vec3& p : cut.points) p.y() = 0;  // so that mirroring leaves it in its plane
  cut = with_mirror_images(std::move(cut), planes_of_symmetry(b));
  for (Vec3& p : cut.points) p.y() = plane;
  view.surfaces.push_back({cut, true, false});
  if (worst >= 0 && b.highest > no_tension_MPa)
    view.marks.push_back({at, fmt::format("{:.0f} MPa", b.shown[worst])});
  return view;
}

std::vector<NamedScene> pictures_of_specimen(const BiteView& b) {
  std::vector<NamedScene> pictures{{"loaded_side", scene_of(b, "seen from the loaded side")},
                                   {"section", scene_of(b, "section along the specimen")},
                                   {"tensile_side", scene_of(b, "seen from the side away from the load")}};
  pictures[0].scene.views = {specimen_view(b, Vec3(-0.35, -0.9, 0.8))};
  for (const Contact& contact : b.asked.contacts)
    pictures[0].scene.views[0].marks.push_back(
        {contact.point, fmt::format("{:g} N", contact.force_N), false});
  pictures[1].scene.views = {specimen_section(b)};
  pictures[2].scene.views = {specimen_view(b, Vec3(-0.35, -0.9, -0.8))};
  return pictures;
}

}  // namespace

std::vector<NamedScene> pictures_of_bite(const VariantRecord& variant, const Fields& fields,
                                         std::size_t index) {
  const BiteView b(variant, fields, index);
  if (variant.model->specimen) return pictures_of_specimen(b);
  std::vector<NamedScene> pictures{
      {"crown", scene_of(b, "the outside, contacts outlined")},
      {"section", scene_of(b, "buccolingual section through the point that decides")},
      {"intaglio", scene_of(b, "the intaglio seen from below, without cement and die")}};
  pictures[0].scene.views = {crown_view(b)};
  pictures[1].scene.views = {section_view(b)};
  pictures[2].scene.views = {intaglio_view(b)};
  return pictures;
}

StudyPanel study_panel(const VariantRecord& variant, const Fields& fields, std::size_t index) {
  const BiteView b(variant, fields, index);
  return {variant.model->specimen ? specimen_section(b) : section_view(b), b.highest,
          b.bite.tension.governing.safety_factor, b.bite.name,
          fmt::format("safety factor {:.2f}, {}", b.bite.tension.governing.safety_factor,
                      verdict_name(b.bite.verdict))};
}

}  // namespace crownproof
