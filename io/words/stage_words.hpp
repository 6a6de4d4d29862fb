// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

namespace crownproof {

struct Stage;
struct Stop;

/// What the status line says when a stage begins; of a finer mesh with what it will cost.
std::string stage_words(const Stage& stage);

/// Why no finer mesh was made, as a sentence.
std::string stop_words(const Stop& stop);

}  // namespace crownproof
