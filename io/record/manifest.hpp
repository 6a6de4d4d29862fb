// SPDX-License-Identifier: AGPL-3.0-or-later
// What a reader needs to repeat a run: program, inputs with their digests, options in force, figures of mesh
// and solver, machine, times.
#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include "io/record/stage_time.hpp"

namespace crownproof {

struct RunRecord;
struct VariantRecord;

/// What was written, for the manifest.
struct WrittenFacts {
  std::vector<std::string> files{};  ///< relative to the results folder
  std::vector<StageTime> writing{};  ///< times of the output itself
  std::vector<std::string> warnings{};
  std::vector<std::pair<std::string, std::string>> columns{};  ///< of summary.csv: name and meaning
};

/// The text of manifest.json.
std::string manifest_json(const RunRecord& run, std::span<const VariantRecord> variants,
                          const WrittenFacts& written);

}  // namespace crownproof
