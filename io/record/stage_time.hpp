// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

namespace crownproof {

/// Wall time of a stage, measured by the caller.
struct StageTime {
  std::string stage{};
  double seconds = 0;
};

}  // namespace crownproof
