// SPDX-License-Identifier: AGPL-3.0-or-later
#include "tests/support/contact_on_layers.hpp"

#include <cmath>

#include "mesh/tet_mesh.hpp"
#include "solver/material/material.hpp"
#include "solver/model/bite.hpp"
#include "tests/support/boundary_problem.hpp"
#include "tests/support/mapped_mesh.hpp"

namespace crownproof {
namespace {

constexpr double force_N = 100, half_width_mm = 4, dentin_mm = 4, poisson_dentin = 0.31;

TetMesh block(const ContactOnLayers& contact, int n) {
  const double cement_top = -contact.thickness_mm, dentin_top = cement_top - contact.cement_mm;
  std::vector<double> z;
  for (const double down : graded_lines(0, dentin_mm, n, 6)) z.insert(z.begin(), dentin_top - down);
  z.push_back(cement_top);
  for (int i = 1; i <= n / 2; ++i) z.push_back(cement_top * (1 - 2.0 * i / n));
  std::vector<double> side{0};
  for (const double out : graded_lines(0, half_width_mm, 2 * n, 6)) {
    if (out == 0) continue;
    side.push_back(out);
    side.insert(side.begin(), -out);
  }
  return box_mesh({side, side, z}, {"dentin", "cement", "ceramic"}, [&](const Vec3& p) {
    return p.z() < dentin_top ? 0 : p.z() < cement_top ? 1 : 2;
  });
}

std::vector<FlatLayer> layers_of(const ContactOnLayers& contact) {
  return {{contact.thickness_mm, contact.youngs, contact.poisson},
          {contact.cement_mm, 8e3, 0.30},
          {0, contact.dentin_youngs, poisson_dentin}};
}

double pressure_at(const ContactOnLayers& contact, double r) {
  const double part = r / contact.contact_radius_mm;
  if (part >= 1) return 0;
  const double mean = force_N / (M_PI * contact.contact_radius_mm * contact.contact_radius_mm);
  return contact.shape == PressureShape::uniform ? mean : 1.5 * mean * std::sqrt(1 - part * part);
}

/// Loads a problem without loads; cells cut by the rim of the disc would miss some of the force, so the
/// pressure is scaled to it.
void press(BoundaryProblem& problem, const ContactOnLayers& contact) {
  BoundaryProblem once = problem;
  const auto pressure = [&](double scale) {
    return [&contact, scale](const Vec3& x, const Vec3& normal) {
      return Vec3(-scale * pressure_at(contact, std::hypot(x.x(), x.y())) * normal);
    };
  };
  once.load("z_high", pressure(1));
  problem.load("z_high", pressure(-force_N / once.total_load().z()));
}

}  // namespace

LayeredHalfSpace exact_contact(const ContactOnLayers& contact) {
  return {layers_of(contact), contact.contact_radius_mm, force_N, contact.shape};
}

double contact_tension(const ContactOnLayers& contact, int n) {
  const TetMesh mesh = block(contact, n);
  const LayeredHalfSpace exact = exact_contact(contact);
  BoundaryProblem problem(
      mesh, {stiffness(isotropic(contact.dentin_youngs, poisson_dentin)), stiffness(isotropic(8e3, 0.30)),
             stiffness(isotropic(contact.youngs, contact.poisson))});
  press(problem, contact);
  const auto moves = [&](const Vec3& p) {
    const double r = std::hypot(p.x(), p.y());
    const Eigen::Vector2d u = exact.displacement(r, -p.z());
    return Vec3(r > 0 ? u[0] * p.x() / r : 0, r > 0 ? u[0] * p.y() / r : 0, -u[1]);
  };
  for (const char* cut : {"x_low", "x_high", "y_low", "y_high", "z_low"})
    problem.hold(cut, {true, true, true}, moves);
  return problem.solve().stress.at(2, nearest_node(mesh, {0, 0, -contact.thickness_mm}))[0];
}

}  // namespace crownproof
