// SPDX-License-Identifier: AGPL-3.0-or-later
// A ball that touches, in words: how it is pressed, where it touches, and whether it would hold.
#pragma once

#include <string>
#include <vector>

namespace crownproof {

struct Antagonist;
struct Model;

/// "300 N by a steel ball of 3 mm radius, free to find its seat, aimed at central_fossa".
std::string antagonist_words(const Antagonist& antagonist);

/// Areas, forces, pressures and approach as found; then what a reader must know of them: a lateral force, or
/// a pressure that the antagonist cannot bear. Empty before it was pressed.
std::vector<std::string> touch_sentences(const Antagonist& antagonist);

/// Of several models, the worst pressure that a ball cannot bear; empty if all can.
std::vector<std::string> worst_pressure(const std::vector<const Model*>& models);

/// For contacts of a given size: what an unworn cusp under the largest force of the case would touch with, so
/// that the size can be judged. Empty where all contacts are a ball's, or on a bench specimen.
std::vector<std::string> unworn_notes(const Model& model);

}  // namespace crownproof
