// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/results/waiting_pictures.hpp"

#include <algorithm>
#include <chrono>
#include <fstream>

#include <fmt/format.h>

#include "io/machine/output_file.hpp"
#include "io/record/manifest.hpp"
#include "io/results/results_folder.hpp"

namespace crownproof {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view missing = "Pictures are missing: ";

std::string text_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

void move_file(const fs::path& from, const fs::path& to) {
  std::error_code error;
  fs::rename(from, to, error);
  if (error) throw ResultsError(explain_write_error(to, error.value()));
}

/// What the manifest says once pictures were drawn: the scenes are gone if none waits any more.
ManifestFiles after(ManifestFiles manifest, const DrawnPictures& drawn, const std::string& failure) {
  const auto is_drawn = [&](const std::string& file) {
    return std::find(drawn.files.begin(), drawn.files.end(), file) != drawn.files.end();
  };
  std::erase_if(manifest.waiting, is_drawn);
  std::erase_if(manifest.files, is_drawn);
  manifest.files.insert(manifest.files.end(), drawn.files.begin(), drawn.files.end());
  if (manifest.waiting.empty()) std::erase(manifest.files, scenes_name);
  std::erase_if(manifest.warnings, [](const std::string& w) { return w.starts_with(missing); });
  if (!failure.empty()) manifest.warnings.push_back(failure);
  for (const std::string& complaint : drawn.complaints)
    manifest.warnings.push_back("While drawing, VTK complained: " + complaint);
  return manifest;
}

/// The manifest is replaced first: it may list a picture that is not there yet, but never leave out one that
/// is, which would then pass for the user's own.
void put_into(const fs::path& folder, const fs::path& drawn_in, const DrawnPictures& drawn,
              const std::string& manifest) {
  const fs::path name = manifest_name;
  write_file(drawn_in / name, manifest);
  move_file(drawn_in / name, folder / name);
  for (const std::string& file : drawn.files) {
    const fs::path there = folder / file;
    std::error_code ignored;  // what cannot be made is told by the move
    fs::create_directories(there.parent_path(),
                           ignored);  // a variant without fields or charts has no folder yet
    move_file(drawn_in / file, there);
  }
}

}  // namespace

std::string missing_pictures(const fs::path& folder, const std::string& why) {
  return fmt::format("{}{} Draw them later with 'crownproof draw {}'.", missing, why, folder.string());
}

DrawnResults draw_waiting_pictures(const fs::path& asked, const Drawing& drawing) {
  const fs::path folder = results_folder(asked);
  const std::string manifest = text_of(folder / manifest_name);
  const auto before = files_of(manifest);
  if (!before)
    throw ResultsError(fmt::format(
        "'{}' holds no results of crownproof. Name the folder that a run has written.", folder.string()));
  if (before->waiting.empty()) return {before->files, before->warnings, ""};
  const auto start = std::chrono::steady_clock::now();
  const HiddenFolder hidden(folder);
  const DrawnPictures drawn = drawing(folder / scenes_name, hidden.path());
  const std::string failure =
      drawn.files.size() < before->waiting.size() ? missing_pictures(folder, drawn.failure) : std::string();
  const ManifestFiles now = after(*before, drawn, failure);
  const std::chrono::duration<double> seconds = std::chrono::steady_clock::now() - start;
  put_into(folder, hidden.path(), drawn, with_files(manifest, now, seconds.count()));
  std::error_code ignored;
  if (now.waiting.empty()) fs::remove(folder / scenes_name, ignored);
  return {now.files, now.warnings, failure};
}

}  // namespace crownproof
