// SPDX-License-Identifier: AGPL-3.0-or-later
// What a reader needs to repeat a run: program, inputs with their digests, options in force, figures of mesh
// and solver, machine, times.
#pragma once

#include <optional>
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
  std::vector<std::string> waiting{};                          ///< pictures still to be drawn
};

/// The text of manifest.json.
std::string manifest_json(const RunRecord& run, std::span<const VariantRecord> variants,
                          const WrittenFacts& written);

/// The part of a manifest that changes when pictures are drawn, after all else is written.
struct ManifestFiles {
  std::vector<std::string> files{}, waiting{}, warnings{};  ///< as in WrittenFacts
};

/// Nothing if the text is not a manifest of this program.
std::optional<ManifestFiles> files_of(const std::string& manifest);

/// A manifest of this program with other files, and the time that drawing took more.
std::string with_files(const std::string& manifest, const ManifestFiles& files, double pictures_s);

}  // namespace crownproof
