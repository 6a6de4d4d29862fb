// SPDX-License-Identifier: AGPL-3.0-or-later
// A file being written with every step checked, so that a full disk is noticed and said.
#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <stdexcept>
#include <string_view>

namespace crownproof {

/// Results cannot be written. The text is a sentence for the user: what is wrong, what to do. Exit code 2.
struct ResultsError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Opens the file for writing (an old one is emptied). All functions throw ResultsError.
class OutputFile {
 public:
  explicit OutputFile(std::filesystem::path path);
  ~OutputFile();  ///< closes silently; only close() tells whether the file is whole
  OutputFile(const OutputFile&) = delete;
  OutputFile& operator=(const OutputFile&) = delete;

  void write(std::span<const std::byte> bytes);
  void write(std::string_view text);
  void close();  ///< flushes to the disk; a file that was not closed counts as not written

 private:
  std::filesystem::path path_;
  int descriptor_ = -1;
};

/// Writes a whole file.
void write_file(const std::filesystem::path& path, std::string_view text);

/// What went wrong with a path and what to do about it, for an error number of the operating system.
std::string explain_write_error(const std::filesystem::path& path, int error_number);

}  // namespace crownproof
