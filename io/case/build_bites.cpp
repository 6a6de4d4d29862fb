// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/build_bites.hpp"

#include <cmath>
#include <string>
#include <utility>
#include <variant>

#include "io/case/case_file.hpp"
#include "io/text/nearest_key.hpp"
#include "mesh/shape/domain.hpp"
#include "mesh/shape/patch_on_surface.hpp"
#include "solver/contact/antagonist_seeds.hpp"
#include "solver/material/antagonist_materials.hpp"
#include "solver/material/material.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/model.hpp"

namespace crownproof {
namespace {

/// Part of the sum of its forces that the resultant of a bite must reach to stand for it.
constexpr double least_resultant = 0.3;

/// The point of the outer surface that a contact or an antagonist names.
template <class At>
Landmark contact_place(const At& contact, const Domain& domain) {
  if (contact.at) {
    const int index = landmark_index(domain, contact.at->value);
    if (index >= 0) return domain.landmarks[index];
    std::vector<std::string> names;
    for (const Landmark& landmark : domain.landmarks) names.push_back(landmark.name);
    throw UserError(contact.at->place, unknown_word("landmark", contact.at->value, "", names));
  }
  const auto [x, y] = contact.at_mm.value().value;
  const auto found = drop_on_outer_surface(domain, x, y);
  if (!found)
    throw UserError(contact.at_mm->place,
                    fmt::format("the contact at x {} mm, y {} mm lies off the crown. Choose a "
                                "point above its outer surface.",
                                x, y));
  return {fmt::format("x {} mm, y {} mm", x, y), found->point, found->normal};
}

template <class At>
const Place& place_of(const At& contact) {
  return contact.at ? contact.at->place : contact.at_mm->place;
}

/// The patch must lie on the outer surface and be nearly flat, as a facet is.
void check_patch_on_surface(const ContactCase& contact, const Landmark& where, const Domain& domain) {
  const double largest = largest_patch_radius_mm(domain, where, contact.radius_mm);
  if (largest >= contact.radius_mm) return;
  const std::string remedy =
      largest > 0 ? fmt::format("Make radius_mm at most {:.2f}, or choose another place.", largest)
                  : std::string("Move it inward.");
  const char* const why =
      rim_departure_mm(domain, where, contact.radius_mm)
          ? "is larger than the surface can bear there: it bends away by more than half the radius"
          : "reaches beyond the crown";
  throw UserError(place_of(contact), fmt::format("the contact patch at '{}' (radius {} mm) {}. {}",
                                                 where.name, contact.radius_mm, why, remedy));
}

/// The direction of a force at a place, refused if it does not press.
template <class At>
Vec3 force_direction(const At& contact, const Landmark& where) {
  Vec3 direction = -Vec3::UnitZ();
  if (const Vec3* given = std::get_if<Vec3>(&contact.direction))
    direction = *given;
  else if (std::get<ForceDirection>(contact.direction) == ForceDirection::surface_normal)
    direction = -where.normal;
  if (direction.dot(where.normal) > -0.05)  // nearly along the surface or away from it
    throw UserError(place_of(contact),
                    fmt::format("the force at '{}' does not press into the surface. Choose "
                                "another direction, or 'surface_normal'.",
                                where.name));
  return direction;
}

Contact build_contact(const ContactCase& contact, const Domain& domain) {
  const Landmark where = contact_place(contact, domain);
  check_patch_on_surface(contact, where, domain);
  Contact built{.at = where.name, .point = where.point, .surface_normal = where.normal};
  built.force_N = contact.force_N.value_or(contact.share.value_or(1));
  built.radius_mm = contact.radius_mm;
  built.pressure = contact.pressure;
  built.direction = force_direction(contact, where);
  return built;
}

Ball ball_of(BallKind kind) {
  if (kind == BallKind::rigid) return {.name = "rigid ball"};
  const AntagonistMaterial& m = kind == BallKind::steel_ball ? steel_ball : enamel_cusp;
  return {.name = std::string(m.name),
          .youngs_MPa = m.youngs_MPa,
          .poisson = m.poisson,
          .hardness_MPa = m.hardness_MPa};
}

Antagonist build_antagonist(const AntagonistCase& c, const Domain& domain) {
  const Landmark where = contact_place(c, domain);
  Antagonist built{.ball = ball_of(c.ball), .at = where.name, .aim = where.point, .found = {}};
  built.ball.radius_mm = c.radius_mm;
  built.ball.force_N = c.force_N;
  built.ball.direction = force_direction(c, where);
  built.ball.held_sideways = c.held_sideways;
  return built;
}

/// Two patches on one place would press it twice.
void check_apart(const BiteCase& bite, const std::vector<Contact>& contacts) {
  for (std::size_t i = 0; i < contacts.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      const double apart = (contacts[i].point - contacts[j].point).norm();
      if (apart >= contacts[i].radius_mm + contacts[j].radius_mm) continue;
      throw UserError(
          place_of(bite.contacts[i]),
          fmt::format("the contacts at '{}' and '{}' overlap: {:.2f} mm apart, radii {} and {} mm. "
                      "Make them one contact, move them apart or make them smaller.",
                      contacts[j].at, contacts[i].at, apart, contacts[j].radius_mm, contacts[i].radius_mm));
    }
}

/// Forces that stand for shares become forces whose resultant is the bite's. Directions that cancel each
/// other would need forces without bound.
void share_force(const BiteCase& bite, Bite& built) {
  double shares = 0;
  for (const Contact& contact : built.contacts) shares += contact.force_N;
  const double resultant = resultant_N(built).norm();
  if (resultant < least_resultant * shares)
    throw UserError(
        bite.total_force_N->place,
        fmt::format("the contacts of '{}' press against each other, so their resultant is only {:.0f} % "
                    "of their forces and does not say how hard each presses. Give each its 'force_N'.",
                    bite.name, 100 * resultant / shares));
  for (Contact& contact : built.contacts) contact.force_N *= bite.total_force_N->value / resultant;
}

}  // namespace

std::vector<Bite> build_bites(const CaseFile& c, const Domain& domain) {
  std::vector<Bite> bites;
  for (const BiteCase& bite : c.bites) {
    bites.push_back({bite.name, {}});
    for (const ContactCase& contact : bite.contacts)
      bites.back().contacts.push_back(build_contact(contact, domain));
    check_apart(bite, bites.back().contacts);
    if (bite.total_force_N) share_force(bite, bites.back());
    if (bite.antagonist) bites.back().antagonist = build_antagonist(bite.antagonist->value, domain);
  }
  return bites;
}

/// Small cells where antagonists will touch.
void add_seat_cells(Model& model) {
  for (const Bite& bite : model.bites) {
    if (!bite.antagonist) continue;
    for (SizeSeed seed : seeds_at_seat(*model.domain, model.materials.front(), *bite.antagonist)) {
      seed.size_mm /= model.size.scale;
      model.size.seeds.push_back(seed);
    }
  }
}

}  // namespace crownproof
