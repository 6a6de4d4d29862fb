// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/dual_weighted_error.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <limits>

#include "mesh/tet_mesh.hpp"
#include "solver/accuracy/peak_history.hpp"
#include "solver/elasticity/elasticity_solver.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/strength/breaking.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/zone_peak.hpp"
#include "solver/stress/bite_fields.hpp"
#include "solver/stress/principal.hpp"
#include "solver/stress/stress_recovery.hpp"

namespace crownproof {
namespace {

constexpr double energy_weight = 0.1;  ///< of the plain energy error beside all goals together
/// Cells are spent on peaks whose safety factor is within this factor of the smallest: somewhat more than
/// the 1.25 within which a peak must be known (peak_history.cpp), so that one which is about to decide is
/// looked at in time.
constexpr double refined_reach = 1.4;
constexpr double first_reach = 2;  ///< the same on the first mesh, where a peak may still grow much
constexpr int most_goals_a_bite = 3;
constexpr double most_urgent = 10, least_urgent = 0.1;  ///< weights of goals far from and long since reached
constexpr double influence_tolerance = 1e-5;            ///< the influence fields only steer the mesh

struct Goal {
  std::size_t bite;
  int node;
  Vec3 direction;
  double urgency = 1;
};

/// How much of the work a goal gets: its band over the wanted one. A goal that is reached keeps a little, so
/// that the others do not cost what it has gained.
double urgency_of(const ZonePeak& peak, const Accuracy& asked) {
  const bool known = peak.settling != Settling::one_pass;
  if (!known || !(asked.stress_percent > 0)) return 1;
  return std::clamp(100 * peak.relative_uncertainty / wanted_percent(asked), least_urgent, most_urgent);
}

/// The direction whose tension the peak's mechanism is about.
Vec3 deciding_direction(const RegionMaterial& material, const ZonePeak& peak, const Voigt& stress) {
  const Vec3 normal = material.axes.col(2);
  if (peak.mechanism != Mechanism::breaks_across_body) return normal;
  if (!layers_are_stronger(material)) return principal_stress(stress).directions.col(0);
  const Mat3 onto_layer = Mat3::Identity() - normal * normal.transpose();
  const Mat3 in_layer = onto_layer * stress_tensor(stress) * onto_layer;
  return Eigen::SelfAdjointEigenSolver<Mat3>(in_layer).eigenvectors().col(2);
}

/// Of those that may decide, the peaks that are farthest from the asked accuracy; among equals the weakest.
std::vector<ZonePeak> most_urgent_peaks(std::vector<ZonePeak> peaks, const Accuracy& asked) {
  double weakest = std::numeric_limits<double>::infinity();
  for (const ZonePeak& peak : peaks) weakest = std::min(weakest, peak.safety_factor);
  std::erase_if(peaks, [&](const ZonePeak& peak) {
    const double reach = peak.settling == Settling::one_pass ? first_reach : refined_reach;
    return peak.safety_factor > reach * weakest;
  });
  std::stable_sort(peaks.begin(), peaks.end(), [&](const ZonePeak& a, const ZonePeak& b) {
    const double first = urgency_of(a, asked), second = urgency_of(b, asked);
    return first != second ? first > second : a.safety_factor < b.safety_factor;
  });
  if (peaks.size() > most_goals_a_bite) peaks.resize(most_goals_a_bite);
  return peaks;
}

/// The peaks worth refining for. Peaks that do not settle are not: cells spent on them are wasted.
std::vector<Goal> goals_of(const StudiedBody& body, const JudgedMesh& judged, const Accuracy& asked) {
  std::vector<Goal> goals;
  for (std::size_t b = 0; b < judged.bites.size(); ++b) {
    std::vector<ZonePeak> peaks = judged.peaks[b];
    std::erase_if(peaks, [](const ZonePeak& peak) { return !tension_settles(peak); });
    for (const ZonePeak& peak : most_urgent_peaks(std::move(peaks), asked)) {
      const Voigt& stress = judged.bites[b].stress.at(body.region, peak.node);
      goals.push_back(
          {b, peak.node, deciding_direction(body.material, peak, stress), urgency_of(peak, asked)});
    }
  }
  return goals;
}

/// Adds values scaled to a sum of `weight`.
void add_scaled(std::vector<double>& sum, const std::vector<double>& values, double weight) {
  double all = 0;
  for (const double v : values) all += v;
  if (!(all > 0)) return;
  for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += weight * values[i] / all;
}

Eigen::MatrixXd influence_fields(const StudiedBody& body, const ElasticitySolver& solver,
                                 const std::vector<Goal>& goals) {
  Eigen::MatrixXd loads(3 * body.mesh.n_nodes(), goals.size());
  for (std::size_t g = 0; g < goals.size(); ++g)
    loads.col(g) =
        stress_goal_load(body.mesh, body.region_stiffness, body.region, goals[g].node, goals[g].direction);
  Eigen::MatrixXd fields = Eigen::MatrixXd::Zero(loads.rows(), loads.cols());
  // A field that did not converge still steers the mesh, a little less well; nothing else depends on it.
  static_cast<void>(solver.solve(loads, fields, {.tolerance = influence_tolerance}));
  return fields;
}

/// The plain energy error of the body under study, all bites alike.
std::vector<double> energy_shares(const StudiedBody& body, const std::vector<ErrorEstimate>& errors) {
  std::vector<double> shares(body.mesh.n_cells(), 0);
  for (const ErrorEstimate& error : errors) {
    std::vector<double> own = error.cell_error;
    for (int c = 0; c < body.mesh.n_cells(); ++c)
      if (body.mesh.region[c] != body.region) own[c] = 0;
    add_scaled(shares, own, energy_weight / static_cast<double>(errors.size()));
  }
  return shares;
}

}  // namespace

std::vector<ErrorEstimate> bite_errors(const StudiedBody& body, const std::vector<BiteFields>& bites) {
  std::vector<ErrorEstimate> errors;
  for (const BiteFields& bite : bites)
    errors.push_back(estimate_error(body.mesh, body.region_stiffness, bite.displacement, bite.stress));
  return errors;
}

std::vector<double> deciding_shares(const StudiedBody& body, const JudgedMesh& judged,
                                    const ElasticitySolver& solver, const Accuracy& asked) {
  std::vector<double> shares = energy_shares(body, judged.errors);
  const std::vector<Goal> goals = goals_of(body, judged, asked);
  if (goals.empty()) return shares;
  const Eigen::MatrixXd fields = influence_fields(body, solver, goals);
  double all = 0;
  for (const Goal& goal : goals) all += goal.urgency;
  for (std::size_t g = 0; g < goals.size(); ++g) {
    const Eigen::VectorXd field = fields.col(g);
    const ErrorEstimate influence = estimate_error(body.mesh, body.region_stiffness, field,
                                                   recover_stress(body.mesh, body.region_stiffness, field));
    add_scaled(shares, goal_error(judged.errors[goals[g].bite], influence),
               (1 - energy_weight) * goals[g].urgency / all);
  }
  return shares;
}

}  // namespace crownproof
