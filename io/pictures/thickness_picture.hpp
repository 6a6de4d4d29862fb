// SPDX-License-Identifier: AGPL-3.0-or-later
// A map of the crown's wall thickness on its outer surface, seen from above.
#pragma once

#include <optional>

#include "io/drawing/scene.hpp"

namespace crownproof {

struct Fields;
struct VariantRecord;

/// Strong colours where the wall is thin. Nothing for bodies without an occlusal table.
std::optional<Scene> thickness_picture(const VariantRecord& variant, const Fields& fields);

}  // namespace crownproof
