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

/// The folder as an absolute path, links followed. Throws ResultsError if there is no such place.
std::filesystem::path results_folder(const std::filesystem::path& asked);

/// The same path. Throws ResultsError if it holds something that must not be
/// replaced: anything without `force`; with it, anything but the files of former results.
std::filesystem::path replaceable(const std::filesystem::path& folder, bool force);

/// A hidden folder beside a results folder, for files that are not whole yet. Makes missing parents, and
/// removes those that killed runs left behind; its destructor removes it with all it holds. Throws
/// ResultsError.
class HiddenFolder {
 public:
  explicit HiddenFolder(const std::filesystem::path& beside);
  ~HiddenFolder();
  HiddenFolder(const HiddenFolder&) = delete;
  HiddenFolder& operator=(const HiddenFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// The hidden folder in which results grow, gone in the end unless publish() came before.
/// All functions throw ResultsError.
class ResultsFolder {
 public:
  /// A link is followed: results appear where it points.
  ResultsFolder(const std::filesystem::path& folder, bool force);

  /// Where to write the file with this relative path; its folder is made and its name noted.
  std::filesystem::path place(const std::string& relative);

  /// Forgets and removes a file that turned out not to be wanted.
  void drop(const std::string& relative);

  const std::vector<std::string>& files() const { return files_; }
  const std::filesystem::path& folder() const { return folder_; }

  /// Gives the folder its name, in place of former results if force was given.
  void publish();

 private:
  std::filesystem::path folder_;
  bool force_ = false;
  HiddenFolder growing_;
  std::vector<std::string> files_;
};

}  // namespace crownproof
