// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/tables/antagonist_json.hpp"

#include <nlohmann/json.hpp>

#include "solver/model/bite.hpp"

namespace crownproof {

using Json = nlohmann::ordered_json;

namespace {

Json vector(const Vec3& v) {
  return {v.x(), v.y(), v.z()};
}

Json area_json(const TouchingArea& area) {
  return {{"centre_mm", vector(area.centre)},
          {"normal", vector(area.normal)},
          {"major_direction", vector(area.major)},
          {"force_N", area.force_N},
          {"major_mm", area.major_mm},
          {"minor_mm", area.minor_mm},
          {"peak_MPa", area.peak_MPa}};
}

}  // namespace

Json antagonist_json(const Bite& bite) {
  if (!bite.antagonist) return nullptr;
  const Antagonist& a = *bite.antagonist;
  Json json = {{"ball", a.ball.name},
               {"radius_mm", a.ball.radius_mm},
               {"youngs_modulus_GPa", a.ball.youngs_MPa > 0 ? Json(a.ball.youngs_MPa / 1000) : Json(nullptr)},
               {"poisson", a.ball.poisson},
               {"force_N", a.ball.force_N},
               {"direction", vector(a.ball.direction)},
               {"held_sideways", a.ball.held_sideways},
               {"at", a.at},
               {"aim_mm", vector(a.aim)}};
  if (!a.found) return json;
  json["approach_um"] = 1000 * a.found->approach_mm;
  json["lateral_N"] = a.found->lateral_N;
  json["seat_beside_aim_mm"] = a.found->moved_mm;
  json["areas"] = Json::array();
  for (const TouchingArea& area : a.found->areas) json["areas"].push_back(area_json(area));
  return json;
}

}  // namespace crownproof
