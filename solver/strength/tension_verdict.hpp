// SPDX-License-Identifier: AGPL-3.0-or-later
// From the tensions of all zones to the verdict of a bite. All is data; its sentence is made in io/words.
#pragma once

#include <vector>

#include "solver/strength/verdict.hpp"
#include "solver/strength/zone_peak.hpp"

namespace crownproof {

/// A peak of which no number can be believed and that matters all the same.
struct UnsettledPeak {
  ZonePeak peak;
  bool near_limit = false;  ///< even the finest mesh, which shows too little of it, comes near the limit
};

/// What the tensions alone say of a bite.
struct TensionVerdict {
  Verdict verdict = Verdict::undecided;
  ZonePeak governing;                    ///< smallest safety factor of all; it need not settle
  ZonePeak deciding;                     ///< the peak that makes the verdict
  double required_safety_factor = 1;     ///< what was asked
  bool nothing_settles = false;          ///< no peak settles, so no number can be believed anywhere
  bool years_unknown = false;            ///< below today; what years leave of the strength is not known
  bool held_back = false;                ///< below where it settles; only unsettled peaks forbid saying so
  std::vector<UnsettledPeak> unsettled;  ///< peaks near the limit, or weaker than the governing one

  /// How far the loads may grow before the governing tension reaches what is allowed; infinite: no tension.
  /// Where that tension does not settle the factor is what the finest mesh shows, and the truth is smaller.
  double load_factor() const { return governing.safety_factor / required_safety_factor; }
};

/// Verdict of peaks that carry their uncertainty u. Below: in every zone strength / (tension (1 + u)) reaches
/// the required safety factor. Above: in some zone even strength / (tension (1 - u)) does not. Otherwise
/// undecided. Peaks that do not settle can neither clear nor condemn a bite: if one is too near the limit on
/// the finest mesh, a bite that would be below is undecided. `peaks` must not be empty.
TensionVerdict judge(const std::vector<ZonePeak>& peaks, double required_safety_factor);

/// The same where years are asked for and nothing is known of what they leave of the strength: what is below
/// today is undecided.
TensionVerdict without_years(TensionVerdict today);

}  // namespace crownproof
