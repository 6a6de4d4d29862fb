// SPDX-License-Identifier: AGPL-3.0-or-later
// How much hangs on the rule for layer planes pressed shut: the same bite if they slide against friction and
// if they add nothing.
#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "solver/strength/mechanism.hpp"

namespace crownproof {

struct BiteStress;
struct FractureOutlook;
struct Requirement;
struct StudiedBody;
struct ZonePeak;

/// What one rule says of a bite.
struct RuleOutcome {
  double safety_factor = std::numeric_limits<double>::infinity();  ///< smallest of the zones that settle
  Mechanism mechanism = Mechanism::breaks_across_body;             ///< of that safety factor
  std::optional<double> probability;  ///< of fracture, after the years asked for; nothing if withheld
};

/// One of the two is the rule of the case.
struct LayerRule {
  RuleOutcome holding;  ///< planes pressed shut add nothing
  RuleOutcome sliding;  ///< they slide against the friction of the case
};

/// Nothing if the body has no layers of known strength. `peaks`, `outlook`: as judged by the rule of the
/// case; their zones and what is known of fatigue hold for both.
std::optional<LayerRule> layer_rule(const StudiedBody& body, const BiteStress& stress,
                                    const std::vector<ZonePeak>& peaks, const FractureOutlook& outlook);

/// Whether the other rule would change the verdict (safety factor or probability on the other side of what is
/// asked, whatever their bands) or the way of breaking that decides.
bool changes_verdict(const LayerRule& rule, const Requirement& requirement);
bool changes_mechanism(const LayerRule& rule);

}  // namespace crownproof
