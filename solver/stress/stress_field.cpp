// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/stress/stress_field.hpp"

#include <algorithm>

#include "mesh/tet_mesh.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/stress/region_stress.hpp"

namespace crownproof {

StressField recovered_field(const TetMesh& mesh, const RegionStress& stress, int region) {
  const auto interpolate = [&stress, region](const auto& nodes, const auto& shape) {
    Voigt sum = Voigt::Zero();
    for (std::size_t a = 0; a < nodes.size(); ++a) sum += shape[a] * stress.at(region, nodes[a]);
    return sum;
  };
  return {[&mesh, interpolate](int cell, const Barycentric& at) {
            return interpolate(mesh.cells[cell], shape_values(at));
          },
          [&mesh, interpolate](int face, const Barycentric& at) {
            return interpolate(mesh.faces[face].nodes, face_shape_values(at));
          }};
}

StressField exact_field(const TetMesh& mesh, std::function<Voigt(const Vec3&)> stress_at) {
  const auto place = [&mesh](const auto& nodes, const auto& shape) {
    Vec3 x = Vec3::Zero();
    for (std::size_t a = 0; a < nodes.size(); ++a) x += shape[a] * mesh.nodes[nodes[a]];
    return x;
  };
  return {[&mesh, place, stress_at](int cell, const Barycentric& at) {
            return stress_at(place(mesh.cells[cell], shape_values(at)));
          },
          [&mesh, place, stress_at](int face, const Barycentric& at) {
            return stress_at(place(mesh.faces[face].nodes, face_shape_values(at)));
          }};
}

std::vector<int> faces_of_region(const TetMesh& mesh, int region) {
  std::vector<char> in_region(mesh.n_nodes(), 0);
  for (int cell = 0; cell < mesh.n_cells(); ++cell)
    if (mesh.region[cell] == region)
      for (const int node : mesh.cells[cell]) in_region[node] = 1;
  std::vector<int> faces;
  for (int face = 0; face < static_cast<int>(mesh.faces.size()); ++face) {
    const NamedFace& f = mesh.faces[face];
    if (mesh.region[f.cell] == region ||
        std::all_of(f.nodes.begin(), f.nodes.end(), [&](int node) { return in_region[node]; }))
      faces.push_back(face);
  }
  return faces;
}

}  // namespace crownproof
