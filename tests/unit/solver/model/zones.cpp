// SPDX-License-Identifier: AGPL-3.0-or-later

#include <algorithm>
#include <cmath>
#include <memory>

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/box_mesh.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/model/zones.hpp"

using namespace crownproof;

namespace {

/// A block of crown on a block of die, with the names a flat stack would give.
TetMesh stack(int n_up = 8) {
  TetMesh mesh = box_mesh({grid_lines(-2, 2, 8), grid_lines(-2, 2, 8), grid_lines(-1, 1, n_up)},
                          {"die", "crown"}, [](const Vec3& p) { return p.z() < 0 ? 0 : 1; });
  for (std::string& name : mesh.face_names) {
    if (name == "z_high") name = "top";
    if (name == "x_low") name = "side";
    if (name == "die_crown") name = "preparation";
  }
  return mesh;
}

Model model_with_contact() {
  Model model;
  Contact contact;
  contact.point = Vec3(0.3, 0, 1);
  contact.radius_mm = 0.6;
  model.bites = {{"clench", {contact}}};
  Domain shape;
  shape.margins = {{Vec3(-2, 2, 0), 0.1}};
  model.domain = std::make_shared<const Domain>(shape);
  return model;
}

/// In the only bite.
std::vector<Zone> zones_of(const TetMesh& mesh, const Model& model) {
  return ZoneMap(mesh, model).in_bite(model.bites.front());
}

Zone zone_at(const TetMesh& mesh, const std::vector<Zone>& zones, const Vec3& point) {
  const auto nearest =
      std::min_element(mesh.nodes.begin(), mesh.nodes.end(),
                       [&](const Vec3& a, const Vec3& b) { return (a - point).norm() < (b - point).norm(); });
  return zones[nearest - mesh.nodes.begin()];
}

}  // namespace

TEST_CASE("Each node of the crown is in the zone a clinician would name", "[zones]") {
  const TetMesh mesh = stack();
  const std::vector<Zone> zones = zones_of(mesh, model_with_contact());
  CHECK(zone_at(mesh, zones, Vec3(0.25, 0, 1)) == Zone::contact);
  CHECK(zone_at(mesh, zones, Vec3(0.3 + 0.7, 0, 1)) == Zone::contact);  // the ring just outside the patch
  CHECK(zone_at(mesh, zones, Vec3(0.25, 0, 0.75)) == Zone::under_contact);
  CHECK(zone_at(mesh, zones, Vec3(1.5, 1.5, 1)) == Zone::occlusal);
  CHECK(zone_at(mesh, zones, Vec3(-2, 0, 0.5)) == Zone::axial);
  CHECK(zone_at(mesh, zones, Vec3(-2, 0, 1)) == Zone::occlusal);  // on both: the first in the order counts
  CHECK(zone_at(mesh, zones, Vec3(0, 0, 0)) == Zone::intaglio);   // bonded, whatever its face is called
  CHECK(zone_at(mesh, zones, Vec3(-2, 2, 0)) == Zone::finish_line);
  CHECK(zone_at(mesh, zones, Vec3(-2, 1.75, 0.25)) == Zone::finish_line);
  CHECK(zone_at(mesh, zones, Vec3(-2, 1.25, 0)) == Zone::intaglio);
  CHECK(zone_at(mesh, zones, Vec3(0, 0, -1)) == Zone::interior);  // the die has no zones
}

TEST_CASE("A place just inside belongs to the surface beside it, deeper than 0.2 mm it is interior",
          "[zones]") {
  const TetMesh mesh = stack(20);  // layers of 0.1 mm with nodes every 0.05 mm
  const std::vector<Zone> zones = zones_of(mesh, model_with_contact());
  CHECK(zone_at(mesh, zones, Vec3(1.5, 1.5, 0.85)) == Zone::occlusal);
  CHECK(zone_at(mesh, zones, Vec3(0.5, 0, 0.85)) == Zone::contact);
  CHECK(zone_at(mesh, zones, Vec3(1.5, 1, 0.15)) == Zone::intaglio);
  CHECK(zone_at(mesh, zones, Vec3(1.5, 1.5, 0.7)) == Zone::interior);
  CHECK(zone_at(mesh, zones, Vec3(0.5, 0, 0.7)) == Zone::under_contact);  // within its reach of 0.78 mm
  CHECK(zone_at(mesh, zones, Vec3(1.6, 0, 0.7)) == Zone::interior);
  CHECK(zone_at(mesh, zones, Vec3(0, 0, -0.1)) == Zone::interior);  // the die below has none
}

TEST_CASE("Where only another bite presses, the surface is free", "[zones]") {
  Model model = model_with_contact();
  Contact other;
  other.point = Vec3(1.5, 1.5, 1);
  other.radius_mm = 0.3;
  model.bites.push_back({"chew", {other}});
  const TetMesh mesh = stack();
  const ZoneMap map(mesh, model);
  const std::vector<Zone> clench = map.in_bite(model.bites[0]), chew = map.in_bite(model.bites[1]);
  CHECK(zone_at(mesh, clench, Vec3(0.25, 0, 1)) == Zone::contact);
  CHECK(zone_at(mesh, clench, Vec3(1.5, 1.5, 1)) == Zone::occlusal);
  CHECK(zone_at(mesh, chew, Vec3(0.25, 0, 1)) == Zone::occlusal);
  CHECK(zone_at(mesh, chew, Vec3(1.5, 1.5, 1)) == Zone::contact);
}

TEST_CASE("Zones need the body under study", "[zones]") {
  Model model = model_with_contact();
  Domain shape;
  shape.outer_region = "inlay";
  model.domain = std::make_shared<const Domain>(shape);
  CHECK_THROWS_AS(ZoneMap(stack(), model), ModelError);
}
