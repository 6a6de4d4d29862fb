// SPDX-License-Identifier: AGPL-3.0-or-later
// The reference page of the case file (docs/case-reference.md), made from the declarations of the reader.
#pragma once

#include <string>

namespace crownproof {

/// The page as Markdown: a table of keys for each section.
std::string case_reference();

}  // namespace crownproof
