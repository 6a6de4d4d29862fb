// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "io/record/stage_time.hpp"

namespace crownproof {

/// What was written.
struct WrittenResults {
  std::filesystem::path folder{};
  std::vector<std::string> files{};     ///< relative to the folder
  std::vector<std::string> warnings{};  ///< sentences; e.g. why there are no pictures
  std::vector<StageTime> timings{};     ///< fields, pictures, tables
};

}  // namespace crownproof
