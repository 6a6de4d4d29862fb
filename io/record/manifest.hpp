// SPDX-License-Identifier: AGPL-3.0-or-later
// What a reader needs to repeat a run: program, inputs with their digests, options in force, figures of mesh
// and solver, machine, times.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "io/record/run_record.hpp"

namespace crownproof {

/// The text of manifest.json. `files`: written ones, relative to the results folder; `writing`: times of the
/// output itself.
std::string manifest_json(const RunRecord& run, std::span<const VariantRecord> variants,
                          const std::vector<std::string>& files, const std::vector<StageTime>& writing,
                          const std::vector<std::string>& warnings);

}  // namespace crownproof
