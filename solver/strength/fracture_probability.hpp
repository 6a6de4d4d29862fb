// SPDX-License-Identifier: AGPL-3.0-or-later
// Probability of fracture by the principle of independent action: flaws of the bench specimen, in the stress
// and the size of the crown (Weibull 1951; Barnett et al. 1967). P_f = 1 - exp(-sum of risks); the risk of a
// population is share (V_E / V_E,bench) (s_max / s0)^m, with areas in place of volumes for surface flaws.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "solver/bench/bench_test.hpp"
#include "solver/bench/interval.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/zone.hpp"

namespace crownproof {

enum class Mechanism;

struct FlawPopulation;
struct StressField;
struct TetMesh;

/// What one population contributes at the load of the stress field.
struct PopulationRisk {
  /// Layer planes that slide: whichever of opening and sliding makes up more of the risk.
  Mechanism mechanism{};
  FlawKind flaws = FlawKind::volume;
  double characteristic_MPa = 0, modulus = 0;
  double peak_MPa = 0;
  double effective_size = 0;       ///< of the body: mm^3 or mm^2, related to peak_MPa
  double reference_size = 0;       ///< of the bench specimen
  double bench_share = 1;          ///< of the bench specimen's risk, see FlawPopulation
  double risk = 0;                 ///< -ln(1 - P) of this population alone
  std::vector<double> zone_share;  ///< part of the risk in each Zone (in the order of the enum); sums to 1
  std::optional<StrengthBounds> bounds;
  Interval effective_size_at_bounds,
      reference_size_at_bounds;  ///< at the lower and upper bound of the modulus
};

/// The probability with what makes it. Its bounds say how far the number of bench specimens lets it be known;
/// they hold nothing of the uncertainty of stress, load or model.
struct FractureProbability {
  std::vector<PopulationRisk> populations;
  double probability = 0;
  std::optional<Interval> bounds;  ///< 90 %, if all strengths have bounds
  int governing = 0;               ///< population with the largest risk
  Zone zone = Zone::interior;      ///< zone with the largest part of that risk
};

/// `node_zone`: #nodes, or empty.
/// `copies`: the whole body is so many times the mesh.
FractureProbability fracture_probability(const TetMesh& mesh, const StressField& field, int region,
                                         const std::vector<FlawPopulation>& populations,
                                         std::span<const Zone> node_zone = {}, int copies = 1);

/// Probability, bounds, governing population and zone of populations whose risks are known; at least one.
FractureProbability together(std::vector<PopulationRisk> populations);

/// The part of a probability that starts in the zones for which `counts` holds; its flaws, bounds and bench
/// sizes stay those of the whole. Of cells and faces the zone is that of zone_labels_of_cells and _of_faces.
FractureProbability fracture_within(const FractureProbability& whole,
                                    const std::function<bool(Zone)>& counts);

/// Probability and its 90 % bounds when all loads are multiplied by a factor.
double probability_at_load(const FractureProbability& fracture, double load_factor);
std::optional<Interval> probability_bounds_at_load(const FractureProbability& fracture, double load_factor);

/// The zone of each cell or face from its nodes: the one named most often among those that are not interior.
std::vector<int> zone_labels_of_cells(const TetMesh& mesh, std::span<const Zone> node_zone);
std::vector<int> zone_labels_of_faces(const TetMesh& mesh, std::span<const Zone> node_zone);

}  // namespace crownproof
