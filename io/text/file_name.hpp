// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace crownproof {

/// A name safe in a file system: letters, digits, '-', '_' and '.', not starting with '.', at most 60
/// characters; `otherwise` if nothing is left.
std::string file_safe(std::string_view name, std::string_view otherwise);

}  // namespace crownproof
