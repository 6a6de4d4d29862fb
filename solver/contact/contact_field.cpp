// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/contact/contact_field.hpp"

#include <algorithm>
#include <array>
#include <memory>
#include <utility>
#include <vector>

#include "mesh/parallel.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/contact/contact_stress.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/region_surface.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/stress/region_stress.hpp"

namespace crownproof {
namespace {

/// Farther from a rim than so many radii quadratic cells of a quarter radius follow the closed form
/// themselves.
constexpr double near_radii = 0.5;

/// The closed form, and at the nodes of near cells what the recovered stress holds beside it.
struct NearField {
  const TetMesh& mesh;
  ContactStress known;
  std::vector<char> near;         ///< #nodes
  std::vector<Voigt> difference;  ///< #nodes, of near cells only

  template <std::size_t N>
  bool is_near(const std::array<int, N>& nodes) const {
    return std::any_of(nodes.begin(), nodes.end(), [&](int node) { return near[node] != 0; });
  }

  /// `shape`: values of the shape functions at a point of a cell or face with these nodes.
  template <std::size_t N, class Shape>
  Voigt at(const std::array<int, N>& nodes, const Shape& shape) const {
    Voigt sum = known.between(nodes, shape);
    for (std::size_t a = 0; a < N; ++a) sum += shape[a] * difference[nodes[a]];
    return sum;
  }
};

std::shared_ptr<const NearField> near_field(const StudiedBody& body, const RegionStress& stress,
                                            ContactStress known) {
  const TetMesh& mesh = body.mesh;
  NearField field{mesh, std::move(known), std::vector<char>(mesh.nodes.size(), 0),
                  std::vector<Voigt>(mesh.nodes.size(), Voigt::Zero())};
  for (int n = 0; n < mesh.n_nodes(); ++n) field.near[n] = field.known.is_near_rim(mesh.nodes[n], near_radii);
  std::vector<char> needed(mesh.nodes.size(), 0);
  for (int c = 0; c < mesh.n_cells(); ++c)
    if (mesh.region[c] == body.region && field.is_near(mesh.cells[c]))
      for (const int node : mesh.cells[c]) needed[node] = 1;
  parallel_for_chunks(mesh.n_nodes(), 1024, [&](int n) {
    if (needed[n]) field.difference[n] = stress.at(body.region, n) - field.known.at_node(n);
  });
  return std::make_shared<const NearField>(std::move(field));
}

}  // namespace

ContactStress contact_stress_of(const StudiedBody& body, std::shared_ptr<const SurfaceFeet> feet,
                                const Bite& bite) {
  const RegionSurface surface = region_surface(body.mesh, body.mesh.region_names[body.region]);
  return {std::move(feet), pressed_patches(body.mesh, surface.interfaces, bite),
          body.material.material.elastic.poisson_12};
}

StressField contact_field(const StudiedBody& body, const RegionStress& stress, ContactStress known) {
  const StressField nodal = recovered_field(body.mesh, stress, body.region);
  const auto near = near_field(body, stress, std::move(known));
  return {[nodal, near](int cell, const Barycentric& at) {
            const auto& nodes = near->mesh.cells[cell];
            return near->is_near(nodes) ? near->at(nodes, shape_values(at)) : nodal.in_cell(cell, at);
          },
          [nodal, near](int face, const Barycentric& at) {
            const auto& nodes = near->mesh.faces[face].nodes;
            return near->is_near(nodes) ? near->at(nodes, face_shape_values(at)) : nodal.on_face(face, at);
          }};
}

}  // namespace crownproof
