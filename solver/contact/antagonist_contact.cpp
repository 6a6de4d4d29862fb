// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/antagonist_contact.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "mesh/model_error.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/contact/contact_surface.hpp"
#include "solver/contact/first_touch.hpp"
#include "solver/contact/press_ball.hpp"
#include "solver/contact/touching_areas.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/region_surface.hpp"

namespace crownproof {
namespace {

/// Where the body, undeformed, comes nearer to the ball than so many of the approach expected of it, it may
/// touch; where pressure reaches the edge of that part, the part is widened.
constexpr double gap_approaches = 1.6, widening = 2;
constexpr int most_widenings = 4;
/// Fewer pressed nodes an area than this make no figure of it.
constexpr int fewest_pressed = 3;

bool pressed_at_edge(const ContactSurface& surface, const Eigen::VectorXd& pressure) {
  for (std::size_t i = 0; i < surface.at_edge.size(); ++i)
    if (surface.at_edge[i] && pressure[static_cast<Eigen::Index>(i)] > 0) return true;
  return false;
}

/// The areas as contacts with the pressure of Hertz.
std::vector<Contact> contacts_of(const std::vector<TouchingArea>& areas, const Ball& ball) {
  std::vector<Contact> contacts;
  for (const TouchingArea& area : areas) {
    Contact contact{
        .at = ball.name, .point = area.centre, .direction = -area.normal, .surface_normal = area.normal};
    contact.force_N = area.force_N;
    contact.radius_mm = std::sqrt(area.major_mm * area.minor_mm);
    contact.stretch = std::sqrt(area.major_mm / area.minor_mm);
    contact.major = area.major;
    contact.reach_radii = reach_under_ball;
    contacts.push_back(contact);
  }
  return contacts;
}

/// The ball pressed where it rests.
struct Rest {
  FirstTouch touch;
  ContactSurface surface;
  PressedBall pressed;
};

Rest press(const TetMesh& mesh, const RegionMaterial& material, const Antagonist& antagonist,
           const ElasticitySolver& solver) {
  const Ball& ball = antagonist.ball;
  const double of_body = half_space_compliance(material.material.elastic);
  const std::vector<int> outside = region_surface(mesh, material.region).outside;
  Rest rest;
  rest.touch = first_touch(mesh, outside, ball, antagonist.aim);
  const double radius = flat_contact_radius(ball.force_N, ball.radius_mm, of_body + ball.compliance());
  double gap = gap_approaches * radius * radius / ball.radius_mm;
  for (int i = 0; i <= most_widenings; ++i, gap *= widening) {
    rest.surface = contact_surface(mesh, outside, rest.touch.centre, ball.radius_mm, ball.direction, gap);
    rest.pressed = press_ball(rest.surface, ball, of_body, solver);
    if (!pressed_at_edge(rest.surface, rest.pressed.pressure)) return rest;
  }
  throw ModelError(
      "the ball touches up to an edge of the outer surface. Aim farther inward, or take a smaller ball or "
      "force");
}

void check_resolved(const Eigen::VectorXd& pressure, std::size_t n_areas) {
  const auto pressed = (pressure.array() > 0).count();
  if (pressed < fewest_pressed * static_cast<Eigen::Index>(n_areas))
    throw ModelError(fmt::format(
        "the ball touches {} corners of cells only; ask for more cells, a larger ball or a larger force",
        pressed));
}

}  // namespace

double flat_contact_radius(double force_N, double radius_mm, double compliance) {
  return std::cbrt(0.75 * force_N * radius_mm * compliance);
}

double half_space_compliance(const ElasticConstants& body) {
  return (1 - body.poisson_12 * body.poisson_12) / body.youngs_1;
}

Bite press_antagonist(const TetMesh& mesh, const RegionMaterial& material, Bite bite,
                      const ElasticitySolver& solver, Eigen::Ref<Eigen::VectorXd> loads,
                      Eigen::Ref<Eigen::VectorXd> first_guess) try {
  Antagonist& antagonist = bite.antagonist.value();
  const Rest rest = press(mesh, material, antagonist, solver);
  BallContact found;
  found.areas = touching_areas(rest.surface, rest.pressed.pressure, rest.touch.centre);
  check_resolved(rest.pressed.pressure, found.areas.size());
  found.moved_mm = rest.touch.moved_mm;
  const Vec3& along = antagonist.ball.direction;
  found.approach_mm = rest.pressed.travel.dot(along);
  found.lateral_N = (rest.pressed.force_N - rest.pressed.force_N.dot(along) * along).norm();
  bite.contacts = contacts_of(found.areas, antagonist.ball);
  antagonist.found = std::move(found);
  loads = rest.pressed.loads;
  first_guess = rest.pressed.displacement;
  return bite;
} catch (const ModelError& error) {
  throw ModelError(fmt::format("Bite '{}': {}", bite.name, error.what()));
}

}  // namespace crownproof
