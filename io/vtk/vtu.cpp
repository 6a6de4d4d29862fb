// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/vtk/vtu.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <set>
#include <span>

#include <fmt/format.h>

#include "io/text/file_name.hpp"
#include "io/text/version.hpp"
#include "mesh/parallel.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/elasticity/curved_cell_rule.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/region_surface.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/breaking.hpp"
#include "solver/stress/bite_fields.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/region_stress.hpp"

namespace crownproof {
namespace {

/// Our Voigt component at each place of VTK's symmetric tensor: xx, yy, zz, xy, yz, xz.
constexpr std::array<int, 6> vtk_order{0, 1, 2, 5, 3, 4};
const std::vector<std::string> tensor_names{"XX", "YY", "ZZ", "XY", "YZ", "XZ"};
const std::vector<std::string> vector_names{"X", "Y", "Z"};

/// The material of a region, or nothing if the model has none for it.
const RegionMaterial* material_of(const Model& model, const std::string& region) {
  const auto found = std::find_if(model.materials.begin(), model.materials.end(),
                                  [&](const RegionMaterial& m) { return m.region == region; });
  return found == model.materials.end() ? nullptr : &*found;
}

/// Smallest strength / tension at a point; 1000 stands for "at least 1000", where there is next to no
/// tension.
double safety_factor(const RegionMaterial& material, const Voigt& stress) {
  return std::min(1000.0, weakest_way(material, tension_of(material, stress)).safety_factor());
}

/// Three values a point, picked from three a node.
VtkArray nodal_vectors(std::string name, const RegionPoints& points, const Eigen::VectorXd& values,
                       bool first_copy_only) {
  std::vector<bool> given(static_cast<std::size_t>(values.size() / 3), false);
  std::vector<double> data(3 * points.node.size(), 0.0);
  for (std::size_t p = 0; p < points.node.size(); ++p) {
    const int node = points.node[p];
    if (first_copy_only && given[node]) continue;
    given[node] = true;
    for (int k = 0; k < 3; ++k) data[3 * p + k] = values[3 * node + k];
  }
  return vtk_array(std::move(name), 3, data, vector_names);
}

/// Stress and what follows from it at each point, as floats.
struct PointFields {
  explicit PointFields(std::size_t n)
      : stress(6 * n, none),
        principal_1(n, none),
        principal_2(n, none),
        principal_3(n, none),
        direction(3 * n, none),
        opening(n, none),
        shear(n, none),
        in_layer(n, none),
        safety(n, none) {}
  static constexpr float none = std::numeric_limits<float>::quiet_NaN();
  std::vector<float> stress, principal_1, principal_2, principal_3, direction, opening, shear, in_layer,
      safety;
};

/// Starts with no number everywhere; regions whose stress is withheld stay so.
PointFields point_fields(const Model& model, const Fields& fields, const RegionPoints& points,
                         const RegionStress& stress) {
  const TetMesh& mesh = fields.mesh;
  const std::set<std::string> withheld(fields.withheld.begin(), fields.withheld.end());
  PointFields f(points.node.size());
  const auto n = static_cast<std::ptrdiff_t>(points.node.size());
  parallel_for(n, [&](std::ptrdiff_t p) {
    const int region = points.region[p];
    if (withheld.contains(mesh.region_names[region])) return;
    const RegionMaterial* const material = material_of(model, mesh.region_names[region]);
    const Voigt& s = stress.at(region, points.node[p]);
    const PrincipalStress principal = principal_stress(s);
    for (int k = 0; k < 6; ++k) f.stress[6 * p + k] = static_cast<float>(s[vtk_order[k]]);
    for (int k = 0; k < 3; ++k) f.direction[3 * p + k] = static_cast<float>(principal.directions(k, 0));
    f.principal_1[p] = static_cast<float>(principal.values[0]);
    f.principal_2[p] = static_cast<float>(principal.values[1]);
    f.principal_3[p] = static_cast<float>(principal.values[2]);
    const bool layered = material != nullptr && material->layered;
    if (layered) {
      const LayerStress layer = layer_stress(s, material->axes.col(2));
      f.opening[p] = static_cast<float>(layer.opening_MPa);
      f.shear[p] = static_cast<float>(layer.shear_MPa);
      f.in_layer[p] = static_cast<float>(layer.in_layer_MPa);
    }
    const bool rated = material != nullptr && material->material.strength &&
                       mesh.region_names[region] == region_under_study(model);
    if (rated) f.safety[p] = static_cast<float>(safety_factor(*material, s));
  });
  return f;
}

std::vector<std::int8_t> zones_of(const BiteFields& bite, const RegionPoints& points) {
  std::vector<std::int8_t> zones;
  for (const int node : points.node) zones.push_back(static_cast<std::int8_t>(bite.node_zone[node]));
  return zones;
}

void add_bite(VtkGrid& grid, const Model& model, const Fields& fields, const RegionPoints& points,
              std::size_t index) {
  const BiteFields& bite = fields.bites[index];
  const std::string prefix = file_safe(model.bites[index].name, fmt::format("bite_{}", index + 1)) + "_";
  auto& data = grid.point_data;
  data.push_back(nodal_vectors(prefix + "displacement_mm", points, bite.displacement, false));
  data.push_back(nodal_vectors(prefix + "nodal_force_N", points, bite.loads, true));
  const PointFields f = point_fields(model, fields, points, bite.stress);
  data.push_back(vtk_array(prefix + "stress_MPa", 6, f.stress, tensor_names));
  data.push_back(vtk_array(prefix + "principal_1_MPa", 1, f.principal_1));
  data.push_back(vtk_array(prefix + "principal_2_MPa", 1, f.principal_2));
  data.push_back(vtk_array(prefix + "principal_3_MPa", 1, f.principal_3));
  data.push_back(vtk_array(prefix + "principal_direction_1", 3, f.direction, vector_names));
  data.push_back(vtk_array(prefix + "safety_factor", 1, f.safety));
  data.push_back(vtk_array(prefix + "zone", 1, zones_of(bite, points)));
  const bool layered =
      std::any_of(model.materials.begin(), model.materials.end(), [](const auto& m) { return m.layered; });
  if (!layered) return;
  data.push_back(vtk_array(prefix + "layer_opening_MPa", 1, f.opening));
  data.push_back(vtk_array(prefix + "layer_shear_MPa", 1, f.shear));
  data.push_back(vtk_array(prefix + "in_layer_MPa", 1, f.in_layer));
}

void add_points(VtkGrid& grid, const Fields& fields, const RegionPoints& points) {
  const TetMesh& mesh = fields.mesh;
  std::vector<double> xyz;
  std::vector<std::uint8_t> held;
  for (std::size_t p = 0; p < points.node.size(); ++p) {
    const int node = points.node[p];
    xyz.insert(xyz.end(), mesh.nodes[node].data(), mesh.nodes[node].data() + 3);
    for (int k = 0; k < 3; ++k) held.push_back(fields.held[3 * node + k]);
  }
  grid.points = vtk_array("points_mm", 3, xyz);
  grid.connectivity = vtk_array("connectivity", 1, points.cells);
  grid.point_data.push_back(vtk_array("node_id", 1, points.node));
  grid.point_data.push_back(vtk_array("fixed", 3, held, vector_names));
}

/// What another program needs to solve the case.
void add_problem(VtkGrid& grid, const Fields& fields) {
  std::vector<std::string> names;
  for (const auto& row : tensor_names)
    for (const auto& column : tensor_names) names.push_back(row + "-" + column);
  std::vector<double> values;
  for (const Stiffness& stiffness : fields.region_stiffness) {
    const Eigen::Matrix<double, 6, 6, Eigen::RowMajor> rows = in_vtk_order(stiffness);
    values.insert(values.end(), rows.data(), rows.data() + 36);
  }
  grid.field_data.push_back(vtk_array("region_stiffness_MPa", 36, values, names));

  std::vector<double> rule;
  for (const QuadraturePoint& q : curved_cell_rule()) {
    rule.insert(rule.end(), q.at.begin(), q.at.end());
    rule.push_back(q.weight);
  }
  grid.field_data.push_back(vtk_array("curved_cell_quadrature", 5, rule, {"L0", "L1", "L2", "L3", "weight"}));
}

void add_names(VtkGrid& grid, const Model& model, const Fields& fields) {
  std::vector<std::string> bites, zones, facts;
  for (const auto& bite : model.bites) bites.push_back(bite.name);
  for (const Zone z : {Zone::contact, Zone::occlusal, Zone::axial, Zone::finish_line, Zone::intaglio,
                       Zone::surface, Zone::interior, Zone::under_contact})
    zones.push_back(zone_name(z));
  for (const auto& [name, value] : build_facts()) facts.push_back(name + " " + value);
  grid.field_texts = {{"title", {model.title}}, {"region_names", fields.mesh.region_names},
                      {"bite_names", bites},    {"zone_names", zones},
                      {"written_by", facts},    {"caution", {caution()}}};
}

/// Nodes of a face as seen from outside the region: a face that is shared may be turned the other way.
std::array<int, 6> turned_outward(const TetMesh& mesh, const NamedFace& face, int region) {
  const auto& n = face.nodes;
  if (mesh.region[face.cell] == region) return n;
  return {n[0], n[2], n[1], n[5], n[4], n[3]};
}

/// Each node of the faces once, in their order.
RegionPoints face_points(const TetMesh& mesh, std::span<const int> faces, int region) {
  RegionPoints points;
  std::vector<int> point_of(mesh.nodes.size(), -1);
  for (const int f : faces)
    for (const int node : turned_outward(mesh, mesh.faces[f], region)) {
      if (point_of[node] < 0) {
        point_of[node] = static_cast<int>(points.node.size());
        points.node.push_back(node);
        points.region.push_back(region);
      }
      points.cells.push_back(point_of[node]);
    }
  return points;
}

}  // namespace

RegionPoints region_points(const TetMesh& mesh) {
  RegionPoints points;
  points.cells.resize(10 * mesh.cells.size());
  std::vector<int> point_of(mesh.nodes.size());
  for (int region = 0; region < static_cast<int>(mesh.region_names.size()); ++region) {
    std::fill(point_of.begin(), point_of.end(), -1);
    for (int c = 0; c < mesh.n_cells(); ++c)
      if (mesh.region[c] == region)
        for (const int node : mesh.cells[c]) point_of[node] = 0;
    for (int node = 0; node < mesh.n_nodes(); ++node) {
      if (point_of[node] < 0) continue;
      point_of[node] = static_cast<int>(points.node.size());
      points.node.push_back(node);
      points.region.push_back(region);
    }
    for (int c = 0; c < mesh.n_cells(); ++c)
      if (mesh.region[c] == region)
        for (int a = 0; a < 10; ++a) points.cells[10 * c + a] = point_of[mesh.cells[c][a]];
  }
  return points;
}

Stiffness in_vtk_order(const Stiffness& stiffness) {
  Stiffness turned;
  for (int i = 0; i < 6; ++i)
    for (int j = 0; j < 6; ++j) turned(i, j) = stiffness(vtk_order[i], vtk_order[j]);
  return turned;
}

VtkGrid grid_of(const Model& model, const Fields& fields) {
  const RegionPoints points = region_points(fields.mesh);
  VtkGrid grid;
  add_points(grid, fields, points);
  grid.cell_data.push_back(vtk_array("region", 1, fields.mesh.region));
  add_problem(grid, fields);
  add_names(grid, model, fields);
  for (std::size_t b = 0; b < fields.bites.size(); ++b) add_bite(grid, model, fields, points, b);
  return grid;
}

VtkGrid surface_grid_of(const Model& model, const Fields& fields) {
  const TetMesh& mesh = fields.mesh;
  const RegionSurface skin = region_surface(mesh, region_under_study(model));
  std::vector<int> faces = skin.outside, names;
  faces.insert(faces.end(), skin.interfaces.begin(), skin.interfaces.end());
  for (const int f : faces) names.push_back(mesh.faces[f].name);
  const RegionPoints points = face_points(mesh, faces, mesh.region_index(region_under_study(model)));
  VtkGrid grid{.nodes_per_cell = 6, .cell_type = vtk_quadratic_triangle};
  add_points(grid, fields, points);
  grid.cell_data.push_back(vtk_array("face_name", 1, names));
  add_names(grid, model, fields);
  grid.field_texts.push_back({"face_names", mesh.face_names});
  for (std::size_t b = 0; b < fields.bites.size(); ++b) add_bite(grid, model, fields, points, b);
  return grid;
}

}  // namespace crownproof
