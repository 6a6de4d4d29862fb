// SPDX-License-Identifier: AGPL-3.0-or-later
// What the flaws of the material mean for one bite: probability of fracture now and after years of chewing,
// and the loads that break.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/accuracy/peak_uncertainty.hpp"
#include "solver/strength/fracture_load.hpp"
#include "solver/strength/fracture_probability.hpp"

namespace crownproof {

/// The same bite after years of chewing at its load.
struct LaterFracture {
  double years = 0;
  double strength_left = 1;  ///< of the bench strength
  double probability = 0;
  std::optional<Interval> bounds;
  std::string sentence;
};

/// Of the body under study in one bite.
struct FractureOutlook {
  std::string withheld;  ///< why there is no probability, as a sentence; empty: there is one
  FractureProbability now;
  std::optional<LaterFracture> later;  ///< if years are asked for and the material's fatigue is known
  std::string later_withheld;          ///< why not, if years are asked for
  FractureLoads loads;
  std::vector<LoadPoint> curve;
  /// The risk -ln(1 - P) is known to this part of itself, plus or minus, as far as the cells go, and what it
  /// does from mesh to mesh (solver/accuracy/fracture_history.hpp).
  double mesh_uncertainty = 0;
  Settling mesh_settling = Settling::one_pass;
};

/// Why no probability of fracture can be computed for a body of this material, as a sentence, or nothing if
/// it can. The material must have a strength.
std::optional<std::string> why_no_probability(const RegionMaterial& material);

/// Probability of fracture at the load of the stress field. Throws ModelError with the text of
/// why_no_probability. `node_zone`: #nodes, or empty; `copies`: the whole body is so many times the mesh.
FractureProbability fracture_now(const TetMesh& mesh, const RegionStress& stress, const std::string& region,
                                 const RegionMaterial& material, const std::vector<Zone>& node_zone,
                                 int copies);

/// `copies`: as above; `force_N`: total force of the bite; `safety_factor`:
/// the bite's smallest. Does not throw for a strength that lacks its specimen or scatter: the reason is in
/// `withheld`.
FractureOutlook fracture_outlook(const TetMesh& mesh, const RegionStress& stress, const std::string& region,
                                 const RegionMaterial& material, const std::vector<Zone>& node_zone,
                                 double force_N, double safety_factor, const Chewing& chewing,
                                 int copies = 1);

}  // namespace crownproof
