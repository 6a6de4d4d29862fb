// SPDX-License-Identifier: AGPL-3.0-or-later
// What a scalar means. YAML readers disagree on 010 (8 or 10), no (false or text), 0x10, 1_000, 1:30; a
// number that decides about a crown must not depend on the reader, so only plain decimal is a number.
#pragma once

#include <string>

#include "io/text/yaml.hpp"

namespace crownproof {

/// A finite decimal number. `what` names it in messages ("'force_N'"). Throws UserError with the remedy.
double to_number(const YamlNode& node, const std::string& what);

/// A whole number that fits an int.
int to_whole_number(const YamlNode& node, const std::string& what);

/// true or false, written so.
bool to_truth(const YamlNode& node, const std::string& what);

/// Text. Unquoted words that some readers take for something else (no, yes, on, off, true, false) and bare
/// numbers are refused: put them in quotes.
std::string to_text(const YamlNode& node, const std::string& what);

}  // namespace crownproof
