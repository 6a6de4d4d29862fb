// SPDX-License-Identifier: AGPL-3.0-or-later
// The stress of one bite as those that judge it see it.
#pragma once

#include <vector>

namespace crownproof {

struct RegionStress;
struct RimPoint;
struct StressField;

/// A view: it lives no longer than what it refers to.
struct BiteStress {
  const RegionStress& nodal;
  const StressField& field;           ///< of the body under study, at any point
  const std::vector<RimPoint>& rims;  ///< round its contacts
};

}  // namespace crownproof
