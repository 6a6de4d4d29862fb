// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <string>

#include "io/text/yaml.hpp"

namespace crownproof {

/// A value as YAML in block style, without a line for itself: maps and lists that hold only scalars and fit a
/// line of 100 columns stand in braces or brackets. `indent`: spaces before each line. Texts marked `quoted`
/// are written in single quotes. parse_yaml reads it back to the same value.
std::string yaml_text(const YamlNode& node, int indent = 0);

}  // namespace crownproof
