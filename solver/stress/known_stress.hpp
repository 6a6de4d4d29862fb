// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <functional>

#include "solver/element/barycentric.hpp"
#include "solver/material/tensor.hpp"

namespace crownproof {

/// A stress known in closed form (MPa, axes of the shape) that the computed one contains, such as that close
/// to a contact. Taken out before stress is smoothed and put back after, it is not smeared over its kinks.
/// Called from several threads; empty: nothing is known.
struct KnownStress {
  std::function<Voigt(int node)> at_node = {};
  std::function<Voigt(int cell, const Barycentric& at)> in_cell = {};
};

}  // namespace crownproof
