// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/zone_peaks.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "mesh/tet_mesh.hpp"
#include "solver/element/barycentric.hpp"
#include "solver/element/quadratic_tetrahedron.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/model/zone.hpp"
#include "solver/strength/breaking.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/stress/bite_fields.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/region_stress.hpp"

namespace crownproof {
namespace {

/// The tension that decides in the way of breaking the peak names.
double deciding_tension(const RegionMaterial& material, const ZonePeak& peak, const Voigt& stress) {
  const Tension tension = tension_of(material, stress);
  if (peak.mechanism != Mechanism::breaks_across_body) return tension.across_layer;
  return body_tension(material, tension);
}

/// The peak of a zone with one more node taken into it.
ZonePeak including(ZonePeak peak, int node, const Vec3& at, const RegionMaterial& material,
                   const Voigt& stress) {
  const PrincipalStress principal = principal_stress(stress);
  const Tension tension = tension_of(material, stress);
  const bool first = peak.node < 0;
  if (first || principal.values[0] > peak.principal_MPa) {
    peak.principal_MPa = principal.values[0];
    peak.at = at;
    peak.direction = principal.directions.col(0);
  }
  peak.in_layer_MPa = first ? tension.in_layer : std::max(peak.in_layer_MPa, tension.in_layer);
  peak.across_layer_MPa =
      first ? tension.across_layer : std::max(peak.across_layer_MPa, tension.across_layer);
  const Breaking way = weakest_way(material, tension);
  if (!first && way.safety_factor() >= peak.safety_factor) return peak;
  peak.node = node;
  peak.tension_at = at;
  peak.safety_factor = way.safety_factor();
  peak.mechanism = way.mechanism;
  peak.tension_MPa = way.tension_MPa;
  peak.strength_MPa = way.strength_MPa;
  return peak;
}

/// Of the scatter of the nodes round a rim, their mean keeps one part in so many (the square root of some 16
/// nodes).
constexpr double nodes_in_mean = 4;

/// The highest tension round the contacts. Its node is the nearest one, its scatter that of the rim.
ZonePeak rim_peak(const StudiedBody& body, const std::vector<int>& nodes, const std::vector<RimPoint>& rims) {
  ZonePeak peak{.zone = Zone::contact};
  int weakest = -1;
  for (std::size_t i = 0; i < rims.size(); ++i) {
    const int before = peak.node;
    peak = including(peak, static_cast<int>(i), rims[i].at, body.material, rims[i].stress);
    if (peak.node != before) weakest = peak.node;
  }
  const RimPoint& rim = rims[weakest];
  if (peak.tension_MPa > 0) {
    peak.cell_scatter = rim.scatter_MPa / nodes_in_mean / peak.tension_MPa;
    peak.open_part = rim.open_MPa / peak.tension_MPa;
  }
  peak.node = *std::min_element(nodes.begin(), nodes.end(), [&](int a, int b) {
    return (body.mesh.nodes[a] - rim.at).squaredNorm() < (body.mesh.nodes[b] - rim.at).squaredNorm();
  });
  return peak;
}

/// Where a node of a cell lies in it; nothing if the cell does not have the node.
std::optional<Barycentric> place_in_cell(const std::array<int, 10>& nodes, int node) {
  const auto place = std::find(nodes.begin(), nodes.end(), node) - nodes.begin();
  if (place == 10) return std::nullopt;
  Barycentric at{};
  if (place < 4)
    at[place] = 1;
  else
    at[tet_edges[place - 4][0]] = at[tet_edges[place - 4][1]] = 0.5;
  return at;
}

/// The stress of a cell's own displacements, not recovered.
Voigt raw_stress(const StudiedBody& body, int cell, const Barycentric& at,
                 const Eigen::VectorXd& displacement) {
  CellNodes u;
  for (int a = 0; a < 10; ++a) u.col(a) = displacement.segment<3>(3 * body.mesh.cells[cell][a]);
  const Mat3 gradient = u * map_cell(cell_positions(body.mesh, cell), at).gradients;
  return body.stiffness() * strain_of_gradient(gradient);
}

/// A band from one mesh alone, a rule of thumb: on flat stacks with exact answers the true error was up
/// to 2.5 times the scatter of the cells and 0.8 to 1.7 %, so three times the scatter and at least 3 % are
/// stated.
double one_mesh_band(double scatter) {
  return std::max(0.03, 3 * scatter);
}

}  // namespace

std::vector<ZonePeak> zone_peaks(const StudiedBody& body, const RegionStress& stress,
                                 const std::vector<RimPoint>& rims) {
  const auto& nodes = stress.nodes[body.region];
  std::array<std::optional<ZonePeak>, n_zones> by_zone;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const Zone zone = body.node_zone[nodes[i]];
    if (zone == Zone::contact && !rims.empty()) continue;
    std::optional<ZonePeak>& peak = by_zone[static_cast<std::size_t>(zone)];
    if (!peak) peak = ZonePeak{.zone = zone};
    peak =
        including(*peak, nodes[i], body.mesh.nodes[nodes[i]], body.material, stress.stress[body.region][i]);
  }
  if (!rims.empty())
    by_zone[static_cast<std::size_t>(Zone::contact)] = rim_peak(body, stress.nodes[body.region], rims);
  std::vector<ZonePeak> peaks;
  for (const auto& peak : by_zone)
    if (peak) peaks.push_back(*peak);
  std::stable_sort(peaks.begin(), peaks.end(),
                   [](const ZonePeak& a, const ZonePeak& b) { return a.principal_MPa > b.principal_MPa; });
  return peaks;
}

double peak_spread(const StudiedBody& body, const Eigen::VectorXd& displacement, const ZonePeak& peak) {
  if (!(peak.tension_MPa > 0)) return 0;
  double squares = 0;
  int count = 0;
  for (int cell = 0; cell < body.mesh.n_cells(); ++cell) {
    if (body.mesh.region[cell] != body.region) continue;
    const auto at = place_in_cell(body.mesh.cells[cell], peak.node);
    if (!at) continue;
    const Voigt raw = raw_stress(body, cell, *at, displacement);
    squares += std::pow(deciding_tension(body.material, peak, raw) - peak.tension_MPa, 2);
    ++count;
  }
  return count > 0 ? std::sqrt(squares / count) / peak.tension_MPa : 0;
}

std::vector<ZonePeak> peaks_of_one_mesh(const StudiedBody& body, const BiteFields& bite) {
  std::vector<ZonePeak> peaks = zone_peaks(body.with_zones(bite.node_zone), bite.stress, bite.rims);
  for (ZonePeak& peak : peaks) {
    if (peak.zone != Zone::contact || bite.rims.empty())
      peak.cell_scatter = peak_spread(body, bite.displacement, peak);
    peak.relative_uncertainty = std::max(one_mesh_band(peak.cell_scatter), peak.open_part);
  }
  return peaks;
}

}  // namespace crownproof
