// SPDX-License-Identifier: AGPL-3.0-or-later
// The sequence of meshes as the terminal shows it.
#pragma once

#include <string>
#include <vector>

#include "solver/result/report.hpp"

namespace crownproof {

/// Mesh by mesh: cells, the tension that decides in the bite with the smallest safety factor, its band as
/// known then, memory foreseen and held; then why no finer mesh was made. Nothing for a single mesh that was
/// all that was asked for. `held_GiB`: most memory held during each pass; empty if not known.
std::string pass_table(const Report& report, const std::vector<double>& held_GiB);

/// One sentence: how many meshes, how large the last, why no finer one.
std::string pass_sentence(const Report& report);

}  // namespace crownproof
