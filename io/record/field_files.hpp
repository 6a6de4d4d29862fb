// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

/// What becomes of stress and displacement everywhere: a file for each variant, one of the studied body's
/// surface only, or none.
enum class FieldFiles { full, surface, none };

}  // namespace crownproof
