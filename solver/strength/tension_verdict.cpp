// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/tension_verdict.hpp"

#include <algorithm>
#include <cassert>
#include <iterator>

namespace crownproof {
namespace {

Verdict verdict_of(const ZonePeak& peak, double required) {
  const double u = peak.relative_uncertainty;
  if (peak.safety_factor / (1 + u) >= required) return Verdict::below;
  return u < 1 && peak.safety_factor / (1 - u) < required ? Verdict::above : Verdict::undecided;
}

const ZonePeak& weakest(const std::vector<ZonePeak>& peaks) {
  return *std::min_element(peaks.begin(), peaks.end(), [](const ZonePeak& a, const ZonePeak& b) {
    return a.safety_factor < b.safety_factor;
  });
}

bool settles(const ZonePeak& peak) {
  return peak.settling != Settling::does_not_settle;
}

/// No number can be believed where a peak does not settle, so it can neither clear a bite nor condemn it. But
/// where even the finest mesh, which shows too little, comes near the limit, "below" would be a guess.
bool forbids_below(const ZonePeak& peak, double required) {
  return !settles(peak) && verdict_of(peak, required) != Verdict::below;
}

/// The worst verdict of any settled zone is the verdict of the bite: above, then undecided, then below.
TensionVerdict worst_of(const std::vector<ZonePeak>& settled, double required) {
  TensionVerdict result{.verdict = Verdict::below, .deciding = weakest(settled)};
  for (const Verdict worst : {Verdict::above, Verdict::undecided}) {
    std::vector<ZonePeak> such;
    std::copy_if(settled.begin(), settled.end(), std::back_inserter(such),
                 [&](const ZonePeak& peak) { return verdict_of(peak, required) == worst; });
    if (such.empty()) continue;
    result.verdict = worst;
    result.deciding = weakest(such);
    break;
  }
  return result;
}

}  // namespace

TensionVerdict judge(const std::vector<ZonePeak>& peaks, double required) {
  assert(!peaks.empty());
  std::vector<ZonePeak> settled;
  std::copy_if(peaks.begin(), peaks.end(), std::back_inserter(settled), settles);
  TensionVerdict result;
  if (settled.empty()) {
    result.nothing_settles = true;
    result.deciding = weakest(peaks);
  } else {
    result = worst_of(settled, required);
  }
  // What is claimed for the bite is never more than its unsettled places allow.
  result.governing = weakest(peaks);
  result.required_safety_factor = required;
  const bool doubt = std::any_of(peaks.begin(), peaks.end(),
                                 [&](const ZonePeak& peak) { return forbids_below(peak, required); });
  result.held_back = doubt && result.verdict == Verdict::below;
  if (result.held_back) result.verdict = Verdict::undecided;
  for (const ZonePeak& peak : peaks)
    if (!settles(peak) &&
        (forbids_below(peak, required) || peak.safety_factor < result.deciding.safety_factor))
      result.unsettled.push_back({peak, forbids_below(peak, required)});
  return result;
}

TensionVerdict without_years(TensionVerdict today) {
  if (today.verdict != Verdict::below) return today;
  today.verdict = Verdict::undecided;
  today.years_unknown = true;
  return today;
}

}  // namespace crownproof
