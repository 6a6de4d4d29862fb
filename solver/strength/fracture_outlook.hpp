// SPDX-License-Identifier: AGPL-3.0-or-later
// What the flaws of the material mean for one bite: probability of fracture now and after years of chewing,
// and the loads that break.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "solver/convergence/settling.hpp"
#include "solver/material/strength_loss.hpp"
#include "solver/strength/fracture_load.hpp"
#include "solver/strength/fracture_probability.hpp"
#include "solver/strength/no_probability.hpp"

namespace crownproof {

struct StressField;
struct StudiedBody;

/// The same bite after years of chewing at its load.
struct LaterFracture {
  Chewing chewing;
  StrengthLoss loss;  ///< its factor is the part left of the bench strength
  double probability = 0;
  std::optional<Interval> bounds;
};

/// Of the body under study in one bite.
struct FractureOutlook {
  std::optional<NoProbability> withheld;  ///< why there is no probability; nothing: there is one
  FractureProbability now;
  std::optional<LaterFracture> later;  ///< if years are asked for and the material's fatigue is known
  std::optional<NoProbability> later_withheld;  ///< why not, if years are asked for
  FractureLoads loads;
  std::vector<LoadPoint> curve;
  /// As far as the cells go, the risk -ln(1 - P) lies between the one found divided and multiplied by this,
  /// and what it does from mesh to mesh (solver/accuracy/fracture_history.hpp).
  double mesh_factor = 1;
  Settling mesh_settling = Settling::one_pass;
};

/// Probability of fracture at the load of the stress field. Throws ModelError if why_no_probability has a
/// reason.
FractureProbability fracture_now(const StudiedBody& body, const StressField& stress);

/// What of an outlook starts in the zones for which `counts` holds, now and after the years; loads and curve
/// are those of the whole body and left out. `outlook` must not be withheld.
FractureOutlook outlook_within(const FractureOutlook& outlook, const std::function<bool(Zone)>& counts);

/// `force_N`: resultant force of the bite; `safety_factor`: the bite's smallest. Does not throw for a
/// strength that lacks its specimen or scatter: the reason is in `withheld`.
FractureOutlook fracture_outlook(const StudiedBody& body, const StressField& stress, double force_N,
                                 double safety_factor, const Chewing& chewing);

}  // namespace crownproof
