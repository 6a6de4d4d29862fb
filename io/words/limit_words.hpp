// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solver/model/method_limits.hpp"

namespace crownproof {

/// What limits a result, a sentence each.
std::vector<std::string> limit_sentences(const std::vector<MethodLimit>& limits);

/// What is assumed of layers that lie aslant to the tension; every result with angles carries it.
std::string angle_caveat();

}  // namespace crownproof
