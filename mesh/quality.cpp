// SPDX-License-Identifier: AGPL-3.0-or-later
#include "mesh/quality.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <Eigen/Geometry>

#include "mesh/det_bernstein.hpp"

namespace crownproof {
namespace {

/// Smallest and largest angle between two faces of the tetrahedron through the corners, degrees.
std::pair<double, double> dihedral_range(const std::array<Vec3, 10>& nodes) {
  std::array<Vec3, 4> normal;
  for (int f = 0; f < 4; ++f) {
    const auto& [a, b, c] = tet_faces[f];
    normal[f] = (nodes[b] - nodes[a]).cross(nodes[c] - nodes[a]).normalized();
  }
  double low = 1,
         high = -1;  // cosines of the angle between the outward normals: 180 degrees less the dihedral
  for (int f = 0; f < 4; ++f)
    for (int g = f + 1; g < 4; ++g) {
      const double cosine = std::clamp(normal[f].dot(normal[g]), -1.0, 1.0);
      low = std::min(low, cosine);
      high = std::max(high, cosine);
    }
  const double degrees = 180 / std::numbers::pi;
  return {180 - degrees * std::acos(low), 180 - degrees * std::acos(high)};
}

}  // namespace

MeshQuality measure_quality(const TetMesh& mesh) {
  MeshQuality quality;
  quality.nodes = mesh.n_nodes();
  for (const std::string& name : mesh.region_names) {
    quality.regions.emplace_back();
    quality.regions.back().region = name;
    quality.regions.back().smallest_dihedral_deg = 180;
  }
  for (int i = 0; i < mesh.n_cells(); ++i) {
    RegionQuality& region = quality.regions[mesh.region[i]];
    const auto nodes = cell_nodes(mesh, i);
    const auto coefficients = det_coefficients(nodes);
    const auto [low, high] = dihedral_range(nodes);
    ++region.cells;
    region.volume_mm3 += volume_of(coefficients);
    region.smallest_dihedral_deg = std::min(region.smallest_dihedral_deg, low);
    region.largest_dihedral_deg = std::max(region.largest_dihedral_deg, high);
    if (!(straight_det(nodes[0], nodes[1], nodes[2], nodes[3]) > 0)) ++region.inverted_straight;
    if (!(*std::min_element(coefficients.begin(), coefficients.end()) > 0)) ++region.inverted_curved;
    if (!is_straight(mesh, i)) ++quality.curved_cells;
  }
  return quality;
}

}  // namespace crownproof
