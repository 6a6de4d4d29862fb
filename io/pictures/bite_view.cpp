// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/pictures/bite_view.hpp"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

#include "io/record/run_record.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/result/fields.hpp"
#include "solver/strength/breaking.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/stress/bite_fields.hpp"
#include "solver/stress/region_stress.hpp"
#include "solver/stress/rim_point.hpp"

namespace crownproof {
namespace {

/// What is shown of a way of breaking.
double shown_of(double tension_MPa, double safety_factor, PictureQuantity quantity) {
  if (!(tension_MPa > 0)) return 0;
  return quantity == PictureQuantity::tension ? tension_MPa : 100 / safety_factor;
}

/// Beside contacts the rims decide; a node there may show more than there is.
double most_at_contact(const BiteReport& bite, const BiteFields& fields, PictureQuantity quantity) {
  if (!fields.rims.empty())
    for (const ZonePeak& peak : bite.peaks)
      if (peak.zone == Zone::contact) return shown_of(peak.tension_MPa, peak.safety_factor, quantity);
  return std::numeric_limits<double>::infinity();
}

}  // namespace

std::vector<SceneSide> tooth_sides() {
  return {{Vec3::UnitY(), "B"}, {-Vec3::UnitY(), "L"}, {-Vec3::UnitX(), "M"}, {Vec3::UnitX(), "D"}};
}

BiteView::BiteView(const VariantRecord& v, const Fields& fields, std::size_t index)
    : variant(v),
      mesh(fields.mesh),
      bite(v.report.bites[index]),
      asked(v.model->bites[index]),
      quantity(v.pictures.quantity),
      copies(fields.copies),
      region(mesh.region_index(region_under_study(*v.model))),
      skin(region_surface(mesh, region_under_study(*v.model))),
      shown(mesh.nodes.size(), 0.0) {
  const RegionMaterial& material = material_under_study(*v.model);
  const BiteFields& of_bite = fields.bites[index];
  const double most = most_at_contact(bite, of_bite, quantity);
  for (const int node : of_bite.stress.nodes[region]) {
    const Breaking way = weakest_way(material, tension_of(material, of_bite.stress.at(region, node)));
    shown[node] = shown_of(way.tension_MPa, way.safety_factor(), quantity);
    if (of_bite.node_zone[node] == Zone::contact) shown[node] = std::min(shown[node], most);
    highest = std::max(highest, shown[node]);
  }
  highest = std::max(highest, deciding_value());
}

Vec3 BiteView::deciding_point() const {
  const ZonePeak& governing = bite.tension.governing;
  return governing.node >= 0 ? mesh.nodes[governing.node] : governing.at;
}

double BiteView::deciding_value() const {
  return shown_of(bite.tension.governing.tension_MPa, bite.tension.governing.safety_factor, quantity);
}

std::string BiteView::words(double value) const {
  return quantity == PictureQuantity::tension ? fmt::format("{:.0f} MPa", value)
         : value < 10                         ? fmt::format("{:.1f} %", value)
                                              : fmt::format("{:.0f} %", value);
}

std::vector<SceneSide> BiteView::sides() const {
  const bool is_tooth = !variant.report.thickness.table_thinnest.name.empty();
  return is_tooth ? tooth_sides() : std::vector<SceneSide>{};
}

SceneView BiteView::empty_view() const {
  SceneView view;
  view.up = Vec3::UnitZ();
  view.sides = sides();
  const RegionMaterial& material = material_under_study(*variant.model);
  if (material.layered) view.layer_normal = material.axes.col(2);
  return view;
}

void mark_deciding(SceneView& view, const BiteView& bite) {
  if (bite.deciding_value() > 0)
    view.marks.push_back({bite.deciding_point(), bite.words(bite.deciding_value())});
}

void mark_highest(SceneView& view, const ValueSurface& surface, const BiteView& bite) {
  const auto top = highest(surface);
  if (!top || !(top->value > 0)) return;
  const bool seen = is_seen(surface, top->at, view.towards_eye.normalized());
  view.marks.push_back({top->at, bite.words(top->value) + (seen ? "" : " (far side)")});
}

}  // namespace crownproof
