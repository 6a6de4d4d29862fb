// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/results/results_folder.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstdio>
#include <fstream>
#include <optional>
#include <set>
#include <system_error>

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include "io/record/manifest.hpp"
#include "io/text/file_name.hpp"

namespace crownproof {
namespace {

namespace fs = std::filesystem;

std::string host_name() {
  std::array<char, 256> name{};
  if (::gethostname(name.data(), name.size() - 1) != 0) return "host";
  return file_safe(name.data(), "host");
}

/// Hidden folders of this host start with this; the process id follows.
std::string growing_prefix(const fs::path& folder) {
  return fmt::format(".{}.unfinished-{}-", folder.filename().string(), host_name());
}

/// Removes what killed runs left: hidden folders of this host whose process is gone.
void remove_leftovers(const fs::path& folder) {
  const std::string prefix = growing_prefix(folder);
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator(folder.parent_path(), ignored)) {
    const std::string name = entry.path().filename().string();
    if (!name.starts_with(prefix)) continue;
    int process = 0;
    const char* const end = name.data() + name.size();
    const auto [stop, error] = std::from_chars(name.data() + prefix.size(), end, process);
    const bool gone = error == std::errc() && stop == end && ::kill(process, 0) != 0 && errno == ESRCH;
    if (gone) fs::remove_all(entry.path(), ignored);  // it stays hidden if that fails; nothing is lost
  }
}

/// The files of former results as their manifest lists them; nothing if it is not a manifest of ours.
std::optional<std::set<std::string>> listed_files(const fs::path& manifest) {
  std::ifstream stream(manifest, std::ios::binary);
  const auto listed = files_of({std::istreambuf_iterator<char>(stream), {}});
  if (!listed) return std::nullopt;
  std::set<std::string> files(listed->files.begin(), listed->files.end());
  files.emplace(manifest_name);
  return files;
}

/// A file in the folder that crownproof did not write, if there is one.
std::optional<std::string> foreign_file(const fs::path& folder) {
  const auto ours = listed_files(folder / manifest_name);
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_directory() && !entry.is_symlink()) continue;
    const std::string name = entry.path().lexically_relative(folder).generic_string();
    if (!ours || !ours->contains(name)) return name;
  }
  return std::nullopt;
}

fs::path absolute_path(const fs::path& folder) {
  std::error_code error;
  const fs::path path = fs::absolute(folder, error);
  if (error)
    throw ResultsError(fmt::format(
        "'{}' has no place: the folder you work in is gone. Change to one that exists, or name the "
        "output folder from the root of the disk.",
        folder.string()));
  return path;
}

/// Where a link points, so that the results take its place there and not that of the link.
fs::path followed(const fs::path& path) {
  std::error_code error;
  if (!fs::is_symlink(fs::symlink_status(path, error))) return path;
  const fs::path target = fs::canonical(path, error);
  if (error)
    throw ResultsError(fmt::format(
        "'{}' is a link that leads nowhere. Remove it, or choose another output folder.", path.string()));
  return target;
}

/// Makes renames last even if the power fails.
void flush_folder(const fs::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  ::fsync(descriptor);  // some file systems refuse; the data themselves are already flushed
  ::close(descriptor);
}

/// Swaps two folders in one step, or in two where the file system cannot.
void swap_folders(const fs::path& a, const fs::path& b) {
  if (::renameat2(AT_FDCWD, a.c_str(), AT_FDCWD, b.c_str(), RENAME_EXCHANGE) == 0) return;
  const fs::path aside = a.string() + "-old";
  fs::rename(b, aside);
  try {
    fs::rename(a, b);
  } catch (const fs::filesystem_error&) {
    fs::rename(aside, b);  // former results come back
    throw;
  }
  fs::rename(aside, a);
}

}  // namespace

fs::path results_folder(const fs::path& folder) {
  fs::path path = absolute_path(folder).lexically_normal();
  if (!path.has_filename()) path = path.parent_path();  // "results/" is "results"
  path = followed(path);
  if (!path.has_filename())
    throw ResultsError("The output folder cannot be the root of the disk. Name a folder.");
  return path;
}

fs::path replaceable(const fs::path& asked, bool force) {
  fs::path folder = results_folder(asked);
  try {
    if (!fs::exists(fs::symlink_status(folder))) return folder;
    if (!fs::is_directory(folder))
      throw ResultsError(
          fmt::format("'{}' is a file, not a folder. Choose another output folder.", folder.string()));
    if (fs::is_empty(folder)) return folder;
    if (!force)
      throw ResultsError(
          fmt::format("The folder '{}' already holds results; they are kept. Choose another output "
                      "folder, or replace them with --force.",
                      folder.string()));
    if (const auto foreign = foreign_file(folder))
      throw ResultsError(
          fmt::format("The folder '{}' holds '{}', which crownproof did not write, so nothing in it is "
                      "replaced. Move that file away, or choose another output folder.",
                      folder.string(), *foreign));
  } catch (const fs::filesystem_error& error) {
    throw ResultsError(explain_write_error(folder, error.code().value()));
  }
  return folder;
}

HiddenFolder::HiddenFolder(const fs::path& beside) {
  const fs::path folder = results_folder(beside);
  try {
    fs::create_directories(folder.parent_path());
    remove_leftovers(folder);
    path_ = folder.parent_path() / (growing_prefix(folder) + std::to_string(::getpid()));
    fs::create_directory(path_);
  } catch (const fs::filesystem_error& error) {
    throw ResultsError(explain_write_error(folder, error.code().value()));
  }
}

HiddenFolder::~HiddenFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

ResultsFolder::ResultsFolder(const fs::path& folder, bool force)
    : folder_(replaceable(folder, force)), force_(force), growing_(folder_) {}

fs::path ResultsFolder::place(const std::string& relative) {
  fs::path path = growing_.path() / relative;
  std::error_code error;
  fs::create_directories(path.parent_path(), error);
  if (error) throw ResultsError(explain_write_error(path, error.value()));
  files_.push_back(relative);
  return path;
}

void ResultsFolder::drop(const std::string& relative) {
  std::error_code ignored;
  fs::remove(growing_.path() / relative, ignored);
  std::erase(files_, relative);
}

void ResultsFolder::publish() {
  replaceable(folder_, force_);  // somebody may have written there meanwhile
  try {
    flush_folder(growing_.path());
    if (fs::exists(folder_))
      swap_folders(growing_.path(), folder_);
    else
      fs::rename(growing_.path(), folder_);
    flush_folder(folder_.parent_path());
  } catch (const fs::filesystem_error& error) {
    throw ResultsError(explain_write_error(folder_, error.code().value()));
  }
  std::error_code ignored;
  fs::remove_all(growing_.path(), ignored);  // the former results, now under the hidden name
}

}  // namespace crownproof
