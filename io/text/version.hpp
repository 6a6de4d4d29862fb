// SPDX-License-Identifier: AGPL-3.0-or-later
// Which program this is: for --version, the manifest and bug reports.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace crownproof {

/// Version number, e.g. "0.1.0".
std::string version();

/// Name and value of each build fact: version, commit, compiler, libraries.
std::vector<std::pair<std::string, std::string>> build_facts();

/// The caution that every report and summary carries.
std::string caution();

}  // namespace crownproof
