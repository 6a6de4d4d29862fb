// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <array>

namespace crownproof {

using Barycentric = std::array<double, 4>;

}  // namespace crownproof
