// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace crownproof {

/// Text made safe inside XML, attributes included; control characters become spaces.
std::string xml_escaped(std::string_view text);

}  // namespace crownproof
