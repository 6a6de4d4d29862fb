// SPDX-License-Identifier: AGPL-3.0-or-later
// Variants of a study that differ in words only: what they vary means nothing for what is computed.
#pragma once

#include <cstddef>
#include <vector>

#include "io/case/case.hpp"

namespace crownproof {

/// For each variant the position of the first one that is the same case, often itself. By symmetry nothing
/// changes with the side towards which layers lean that lie level, nor with the build direction of a material
/// that has no direction.
std::vector<std::size_t> first_of_same(const Case& whole);

}  // namespace crownproof
