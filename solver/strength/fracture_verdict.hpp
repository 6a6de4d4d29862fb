// SPDX-License-Identifier: AGPL-3.0-or-later
// A second limit beside that on tension: the probability of fracture that the case allows. A tension looks at
// the worst point only; the probability weighs how much of the body is stressed, and how few specimens stand
// behind it.
#pragma once

#include <optional>

#include "solver/strength/fracture_outlook.hpp"
#include "solver/strength/tension_verdict.hpp"

namespace crownproof {

struct RegionMaterial;
struct Requirement;

/// The probability of fracture of one bite against the allowed one.
struct FractureVerdict {
  double allowed = 0;
  bool by_default = false;         ///< the usual limit, nobody asked for it
  double years = 0;                ///< of chewing at the load of the bite; 0: now
  double probability = 0;          ///< after these years
  std::optional<Interval> bounds;  ///< 90 %, from the bench test; without them the figure itself is compared
  Verdict verdict = Verdict::undecided;
  double load_factor =
      0;  ///< on all loads, at which `probability` becomes the allowed one; infinite: no tension
  bool decides = false;  ///< it, and not the tension, decides the verdict of the bite
};

/// Why the material allows no such verdict, or nothing if it does: no statistics, or years are asked for and
/// nothing is known of its fatigue. Nothing too if no probability is asked for.
std::optional<NoProbability> why_no_fracture_verdict(const Requirement& requirement,
                                                     const RegionMaterial& material);

/// Above if the lower bound lies above the allowed probability, below if the upper one does not, else
/// undecided; both are widened by what the mesh adds, and a probability that does not settle from mesh to
/// mesh is at best undecided. `requirement.allowed_fracture_probability` must be set, and
/// why_no_fracture_verdict be nothing.
FractureVerdict judge_fracture(const FractureOutlook& fracture, const Requirement& requirement);

/// Both limits together: the worse verdict is that of the bite. If both say the same, the limit that is
/// reached first as the loads grow decides; `fracture.decides` of the result says whether that is the
/// probability.
struct BothVerdicts {
  Verdict verdict = Verdict::undecided;
  FractureVerdict fracture;
};
BothVerdicts combine_verdicts(const TensionVerdict& tension, const FractureVerdict& fracture);

}  // namespace crownproof
