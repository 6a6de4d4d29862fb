// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace crownproof {

/// One line of a comma-separated table with its line break, cells quoted where RFC 4180 asks for it.
std::string csv_line(const std::vector<std::string>& cells);

}  // namespace crownproof
