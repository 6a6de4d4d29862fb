// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/volume/thickness.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <tuple>
#include <utility>

#include "mesh/shape/domain.hpp"
#include "mesh/tet_mesh.hpp"
#include "mesh/volume/face_distance.hpp"

namespace crownproof {
namespace {

using Edge = std::pair<int, int>;

bool has_name(const TetMesh& mesh, const NamedFace& face, const std::vector<std::string>& names) {
  return std::find(names.begin(), names.end(), mesh.face_names[face.name]) != names.end();
}

/// Nodes of the free edge of a face set: the rim where the intaglio ends.
std::vector<Vec3> rim_points(const TetMesh& mesh, const std::string& name) {
  std::map<Edge, std::pair<int, int>> uses;  // corners -> (how often, mid-side node)
  for (const NamedFace& face : mesh.faces) {
    if (mesh.face_names[face.name] != name) continue;
    for (int i = 0; i < 3; ++i) {
      const int a = face.nodes[i], b = face.nodes[(i + 1) % 3];
      auto& use = uses[{std::min(a, b), std::max(a, b)}];
      ++use.first;
      use.second = face.nodes[3 + i];
    }
  }
  std::vector<Vec3> points;
  for (const auto& [edge, use] : uses) {
    if (use.first != 1) continue;
    for (const int node : {edge.first, edge.second, use.second}) points.push_back(mesh.nodes[node]);
  }
  return points;
}

double distance_to_points(const std::vector<Vec3>& points, const Vec3& from) {
  double least = std::numeric_limits<double>::max();
  for (const Vec3& p : points) least = std::min(least, (p - from).squaredNorm());
  return std::sqrt(least);
}

/// Nodes of the faces of these names with the face's name, each node once, in the order of the faces.
std::vector<std::pair<int, int>> nodes_of(const TetMesh& mesh, const std::vector<std::string>& names) {
  std::vector<std::pair<int, int>> nodes;
  std::vector<char> seen(mesh.nodes.size(), 0);
  for (const NamedFace& face : mesh.faces) {
    if (!has_name(mesh, face, names)) continue;
    for (const int node : face.nodes)
      if (!std::exchange(seen[node], 1)) nodes.emplace_back(node, face.name);
  }
  return nodes;
}

/// The smallest thickness over the nodes of the outer faces. Near the rim every wall tapers off; a place
/// counts once the rim is twice as far away as the inner side.
ThicknessAt smallest_thickness(const TetMesh& mesh, const std::vector<std::string>& outer_names,
                               const FaceTree& inner, const std::vector<Vec3>& rim) {
  const double clear_of_rim = 2;
  ThicknessAt smallest{"", Vec3::Zero(), std::numeric_limits<double>::infinity()};
  for (const auto& [node, name] : nodes_of(mesh, outer_names)) {
    const Vec3& point = mesh.nodes[node];
    const double thickness = inner.nearest(point, smallest.thickness_mm).distance_mm;
    if (thickness >= smallest.thickness_mm) continue;
    if (distance_to_points(rim, point) <= clear_of_rim * thickness + 1e-6) continue;
    smallest = {mesh.face_names[name], point, thickness};
  }
  return smallest;
}

/// Thinnest and thickest node of the occlusal table; without names if the shape has none.
std::pair<ThicknessAt, ThicknessAt> range_over_table(const TetMesh& mesh, const Domain& domain,
                                                     const std::vector<std::string>& outer_names,
                                                     const FaceTree& inner) {
  ThicknessAt thin, thick;
  if (!domain.on_occlusal_table) return {thin, thick};
  for (const auto& [node, name] : nodes_of(mesh, outer_names)) {
    const Vec3& point = mesh.nodes[node];
    if (!domain.on_occlusal_table(point)) continue;
    const ThicknessAt here{mesh.face_names[name], point, inner.nearest(point).distance_mm};
    if (thin.name.empty() || here.thickness_mm < thin.thickness_mm) thin = here;
    if (thick.name.empty() || here.thickness_mm > thick.thickness_mm) thick = here;
  }
  return {thin, thick};
}

}  // namespace

double distance_to_faces(const TetMesh& mesh, const std::string& face_name, const Vec3& point) {
  return FaceTree(mesh, {face_name}).nearest(point).distance_mm;
}

ThicknessReport measure_thickness(const TetMesh& mesh, const Domain& domain,
                                  const std::vector<std::string>& outer_names,
                                  const std::string& inner_name) {
  const FaceTree inner(mesh, {inner_name}), outer(mesh, outer_names);
  // The mesh is measured, not the shape it was made from: each place is first moved onto the mesh.
  const auto measure = [&](const std::string& name, const Vec3& place) {
    const Vec3 point = outer.nearest(place).point;
    return ThicknessAt{name, point, inner.nearest(point).distance_mm};
  };
  ThicknessReport report;
  if (domain.fossa) report.fossa = measure("fossa", *domain.fossa);
  for (const Landmark& mark : domain.landmarks) {
    const ThicknessAt at = measure(mark.name, mark.point);
    report.landmarks.push_back(at);
    if (mark.kind == LandmarkKind::functional_cusp_tip) report.functional_cusps.push_back(at);
    if (mark.kind == LandmarkKind::other_cusp_tip) report.other_cusps.push_back(at);
  }
  std::tie(report.table_thinnest, report.table_thickest) = range_over_table(mesh, domain, outer_names, inner);
  report.smallest = smallest_thickness(mesh, outer_names, inner, rim_points(mesh, inner_name));
  if (report.smallest.name.empty()) report.smallest = smallest_thickness(mesh, outer_names, inner, {});
  return report;
}

}  // namespace crownproof
