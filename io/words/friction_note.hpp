// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace crownproof {

struct Model;

/// A sentence for each contact of a model whose force is so oblique that teeth would rather slide, each once;
/// empty as a rule.
std::vector<std::string> friction_notes(const Model& model);

}  // namespace crownproof
