// SPDX-License-Identifier: AGPL-3.0-or-later
// Results appear complete or not at all: they grow in a hidden folder beside the asked one, which takes the
// asked name only when everything is on disk.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "io/machine/output_file.hpp"

namespace crownproof {

/// Every results folder holds this file; its list of files tells what the program wrote itself.
inline constexpr std::string_view manifest_name = "manifest.json";

/// Throws ResultsError if `folder` holds something that must not be replaced: anything without `force`; with
/// it, anything but the files of former results.
void check_replaceable(const std::filesystem::path& folder, bool force);

/// The hidden folder in which results grow. Its destructor removes it unless publish() came before.
/// All functions throw ResultsError.
class ResultsFolder {
 public:
  /// Makes the hidden folder (and missing parents), and removes those that killed runs left behind.
  ResultsFolder(const std::filesystem::path& folder, bool force);
  ~ResultsFolder();
  ResultsFolder(const ResultsFolder&) = delete;
  ResultsFolder& operator=(const ResultsFolder&) = delete;

  /// Where to write the file with this relative path; its folder is made and its name noted.
  std::filesystem::path place(const std::string& relative);

  /// Forgets and removes a file that turned out not to be wanted.
  void drop(const std::string& relative);

  const std::vector<std::string>& files() const { return files_; }
  const std::filesystem::path& folder() const { return folder_; }

  /// Gives the folder its name, in place of former results if force was given.
  void publish();

 private:
  std::filesystem::path folder_, growing_;
  bool force_ = false;
  std::vector<std::string> files_;
};

}  // namespace crownproof
