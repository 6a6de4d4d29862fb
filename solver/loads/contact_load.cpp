// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/loads/contact_load.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <fmt/format.h>
#include <Eigen/Geometry>
#include <Eigen/LU>

#include "mesh/model_error.hpp"
#include "solver/element/barycentric.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/loads/contact_traction.hpp"
#include "solver/model/bite.hpp"
#include "solver/model/region_surface.hpp"

namespace crownproof {
namespace {

using FaceNodes = Eigen::Matrix<double, 3, 6>;

/// Pieces of a face that the edge of the patch crosses are cut down to this part of the radius; the edge of a
/// uniform patch is a ramp of the same width, so that the sum over points is smooth.
constexpr double finest_piece = 0.03;
/// Places whose normal makes more than about 87 degrees with the force carry nothing.
constexpr double least_facing = 0.05;
/// Farthest the centre of pressure may lie off the line of force, in radii.
constexpr double largest_offset = 0.2;
constexpr int fewest_faces = 4;

/// A quadrature point of the patch on its face.
struct PatchPoint : PressurePoint {
  int face = 0;
  Eigen::Matrix<double, 6, 1> shape;
  double area = 0;  ///< mm2
};

double pressure_shape(const Contact& contact, double distance) {
  const double a = contact.radius_mm;
  if (contact.pressure == PressureShape::hertz)
    return std::sqrt(std::max(0.0, 1 - distance * distance / (a * a)));
  return std::clamp((a - distance) / (finest_piece * a) + 0.5, 0.0, 1.0);
}

FaceNodes positions(const TetMesh& mesh, const NamedFace& face) {
  FaceNodes x;
  for (int i = 0; i < 6; ++i) x.col(i) = mesh.nodes[face.nodes[i]];
  return x;
}

Barycentric barycentric(const Vec3& l) {
  return {l[0], l[1], l[2], 0};
}

/// Corners of a piece of a face: their barycentric coordinates as columns.
using Piece = Mat3;

std::array<Piece, 4> quarters(const Piece& p) {
  const Vec3 a = p.col(0), b = p.col(1), c = p.col(2);
  const Vec3 ab = 0.5 * (a + b), bc = 0.5 * (b + c), ca = 0.5 * (c + a);
  std::array<Piece, 4> parts;
  parts[0] << a, ab, ca;
  parts[1] << ab, b, bc;
  parts[2] << ca, bc, c;
  parts[3] << ab, bc, ca;
  return parts;
}

/// How a piece of a face lies to the edge of the patch.
enum class Place { inside, crossed, outside };
struct PieceSize {
  Place place;
  double length;  ///< longest side, mm
};

PieceSize measure(const FaceNodes& face, const Piece& piece, const Contact& contact) {
  Mat3 corners;
  for (int i = 0; i < 3; ++i) corners.col(i) = face * face_shape_values(barycentric(piece.col(i)));
  double length = 0, nearest = std::numeric_limits<double>::max(), farthest = 0;
  for (int i = 0; i < 3; ++i) {
    length = std::max(length, (corners.col(i) - corners.col((i + 1) % 3)).norm());
    const double distance = (corners.col(i) - contact.point).norm();
    nearest = std::min(nearest, distance);
    farthest = std::max(farthest, distance);
  }
  if (nearest > contact.radius_mm + length) return {Place::outside, length};
  return {farthest < contact.radius_mm - length ? Place::inside : Place::crossed, length};
}

std::vector<PatchPoint> points_of_piece(const FaceNodes& face, const Piece& piece, int index,
                                        const Contact& contact) {
  std::vector<PatchPoint> points;
  const double part = std::abs(piece.determinant());  // of the whole face's reference area
  for (const QuadraturePoint& q : triangle_rule(4)) {
    const Barycentric at = barycentric(piece * Vec3(q.at[0], q.at[1], q.at[2]));
    const Eigen::Matrix<double, 3, 2> tangents = face * face_shape_derivatives(at);
    const Vec3 normal = tangents.col(0).cross(tangents.col(1));
    PatchPoint point;
    point.face = index;
    point.shape = face_shape_values(at);
    point.at = face * point.shape;
    point.normal = normal.normalized();
    point.area = 0.5 * part * q.weight * normal.norm();
    if (point.normal.dot(contact.direction) < -least_facing)  // it faces the force
      point.weight = point.area * pressure_shape(contact, (point.at - contact.point).norm());
    if (point.weight > 0) points.push_back(point);
  }
  return points;
}

std::vector<PatchPoint> points_of_face(const FaceNodes& face, int index, const Contact& contact) {
  std::vector<PatchPoint> points;
  std::vector<Piece> pieces{Piece::Identity()};
  while (!pieces.empty()) {
    const Piece piece = pieces.back();
    pieces.pop_back();
    const PieceSize size = measure(face, piece, contact);
    if (size.place == Place::outside) continue;
    if (size.place == Place::crossed && size.length > finest_piece * contact.radius_mm) {
      const auto parts = quarters(piece);
      pieces.insert(pieces.end(), parts.begin(), parts.end());
      continue;
    }
    const auto more = points_of_piece(face, piece, index, contact);
    points.insert(points.end(), more.begin(), more.end());
  }
  return points;
}

void check(const Contact& contact) {
  if (!(contact.force_N > 0) || !std::isfinite(contact.force_N))
    throw ModelError(fmt::format("The contact at {} has a force of {:g} N; a bite needs a force above zero.",
                                 contact.at, contact.force_N));
  if (!(contact.radius_mm > 0) || !std::isfinite(contact.radius_mm))
    throw ModelError(fmt::format("The contact at {} has a radius of {:g} mm; give a radius above zero.",
                                 contact.at, contact.radius_mm));
  if (!(std::abs(contact.direction.norm() - 1) < 1e-6))
    throw ModelError(fmt::format(
        "The force of the contact at {} has no direction; give one such as [0, 0, -1].", contact.at));
}

[[noreturn]] void explain_empty_patch(const TetMesh& mesh, const std::vector<int>& faces,
                                      const Contact& contact) {
  double nearest = std::numeric_limits<double>::max();
  for (const int f : faces)
    for (const int node : mesh.faces[f].nodes)
      nearest = std::min(nearest, (mesh.nodes[node] - contact.point).norm());
  if (nearest <= contact.radius_mm)
    throw ModelError(fmt::format(
        "The force of the contact at {} pulls on the surface or slides along it; turn its direction "
        "so that it presses.",
        contact.at));
  throw ModelError(
      fmt::format("The contact at {} is off the crown: the nearest surface is {:.2f} mm away and the radius "
                  "is {:g} mm. Move "
                  "the contact onto the outer surface.",
                  contact.at, nearest, contact.radius_mm));
}

void check_patch(const ContactLoad& load, double lowest_pressure, const Contact& contact) {
  if (load.n_faces < fewest_faces)
    throw ModelError(
        fmt::format("The contact at {} (radius {:g} mm) falls on {} cell face(s) only; refine the mesh there "
                    "or enlarge the "
                    "radius.",
                    contact.at, contact.radius_mm, load.n_faces));
  const double disc = std::numbers::pi * contact.radius_mm * contact.radius_mm;
  if (load.area_mm2 < 0.5 * disc || load.offset_mm > largest_offset * contact.radius_mm ||
      lowest_pressure < 0)
    throw ModelError(
        fmt::format("The contact at {} (radius {:g} mm) hangs over the edge of the surface or bends round "
                    "it: {:.0f} % of its "
                    "area is carried, and its centre lies {:.2f} mm off. Move it inward, make it smaller, or "
                    "turn its force "
                    "straighter into the surface.",
                    contact.at, contact.radius_mm, 100 * load.area_mm2 / disc, load.offset_mm));
}

}  // namespace

ContactLoad contact_load(const TetMesh& mesh, const std::vector<int>& faces, const Contact& contact) {
  check(contact);
  ContactLoad load;
  std::vector<PatchPoint> points;
  for (const int f : faces) {
    const auto more = points_of_face(positions(mesh, mesh.faces[f]), f, contact);
    if (!more.empty()) ++load.n_faces;
    points.insert(points.end(), more.begin(), more.end());
  }
  if (points.empty()) explain_empty_patch(mesh, faces, contact);
  for (const PatchPoint& p : points) load.area_mm2 += p.area;
  const ContactTraction traction = contact_traction({points.begin(), points.end()}, contact);
  load.offset_mm = traction.offset_mm;
  check_patch(load, traction.lowest_pressure, contact);

  for (std::size_t i = 0; i < points.size(); ++i) {
    const PatchPoint& p = points[i];
    const Vec3& force = traction.force[i];
    load.highest_pressure_MPa = std::max(load.highest_pressure_MPa, -force.dot(p.normal) / p.area);
    for (int a = 0; a < 6; ++a) {
      const auto [place, is_new] = load.nodal_forces.try_emplace(mesh.faces[p.face].nodes[a], Vec3::Zero());
      place->second += p.shape[a] * force;
    }
  }
  for (const auto& [node, force] : load.nodal_forces) {
    load.force_N += force;
    load.moment_Nmm += (mesh.nodes[node] - contact.point).cross(force);
  }
  return load;
}

Eigen::VectorXd bite_load(const TetMesh& mesh, const std::string& region, const Bite& bite) {
  if (bite.contacts.empty())
    throw ModelError(fmt::format("Bite '{}' has no contact; give at least one place and force.", bite.name));
  const std::vector<int> faces = region_surface(mesh, region).outside;
  Eigen::VectorXd loads = Eigen::VectorXd::Zero(3 * mesh.n_nodes());
  for (const Contact& contact : bite.contacts)
    for (const auto& [node, force] : contact_load(mesh, faces, contact).nodal_forces)
      loads.segment<3>(3 * node) += force;
  return loads;
}

}  // namespace crownproof
