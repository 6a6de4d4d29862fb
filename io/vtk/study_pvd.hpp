// SPDX-License-Identifier: AGPL-3.0-or-later
// The field files of a study as one collection that VTK viewers step through.
#pragma once

#include <string>
#include <vector>

namespace crownproof {

/// A .pvd file's text: variant i is time step i.
std::string study_pvd(const std::vector<std::string>& vtu_files);

}  // namespace crownproof
