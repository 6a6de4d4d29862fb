// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/output_file.hpp"

#include <cerrno>
#include <csignal>
#include <ctime>
#include <string>
#include <system_error>

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

namespace crownproof {
namespace {

/// While it lives, a write beyond the allowed file size is an error (EFBIG) instead of a signal that ends the
/// program.
class FileSizeSignalBlocked {
 public:
  FileSizeSignalBlocked() {
    ::sigemptyset(&signal_);
    ::sigaddset(&signal_, SIGXFSZ);
    ::pthread_sigmask(SIG_BLOCK, &signal_, &before_);
  }
  ~FileSizeSignalBlocked() {
    constexpr timespec no_wait{0, 0};
    while (::sigtimedwait(&signal_, nullptr, &no_wait) == SIGXFSZ) continue;
    ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
  }
  FileSizeSignalBlocked(const FileSizeSignalBlocked&) = delete;
  FileSizeSignalBlocked& operator=(const FileSizeSignalBlocked&) = delete;

 private:
  sigset_t signal_{}, before_{};
};

[[noreturn]] void fail(const std::filesystem::path& path, int error_number) {
  throw ResultsError(explain_write_error(path, error_number));
}

}  // namespace

std::string explain_write_error(const std::filesystem::path& path, int error_number) {
  const std::string what = fmt::format("Cannot write '{}'", path.string());
  switch (error_number) {
    case ENOSPC:
    case EDQUOT:
      return what + ": the disk is full. Free some space, or choose an output folder on another disk.";
    case EFBIG:
      return what +
             ": the file would exceed the size allowed here (see 'ulimit -f'). Raise the limit, or ask for "
             "fewer cells.";
    case EACCES:
    case EPERM:
      return what + ": you may not write there. Choose an output folder you own.";
    case EROFS:
      return what + ": the disk is read-only. Choose an output folder on another disk.";
    case ENAMETOOLONG:
      return what + ": the name is too long. Choose a shorter output folder.";
    case ENOTDIR:
    case EEXIST:
      return what + ": a part of this path is a file, not a folder. Choose another output folder.";
    default:
      return fmt::format("{}: {}. Choose another output folder.", what,
                         std::generic_category().message(error_number));
  }
}

OutputFile::OutputFile(std::filesystem::path path) : path_(std::move(path)) {
  descriptor_ = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644);
  if (descriptor_ < 0) fail(path_, errno);
}

OutputFile::~OutputFile() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

void OutputFile::write(std::span<const std::byte> bytes) {
  const FileSizeSignalBlocked blocked;
  while (!bytes.empty()) {
    const ssize_t n = ::write(descriptor_, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) fail(path_, errno);
    bytes = bytes.subspan(static_cast<std::size_t>(n));
  }
}

void OutputFile::write(std::string_view text) {
  write(std::as_bytes(std::span(text)));
}

void OutputFile::close() {
  // Pipes and devices cannot be flushed to a disk (EINVAL, EROFS); that is no failure.
  if (::fdatasync(descriptor_) != 0 && errno != EINVAL && errno != EROFS) fail(path_, errno);
  const int closed = ::close(descriptor_);
  descriptor_ = -1;
  if (closed != 0) fail(path_, errno);
}

void write_file(const std::filesystem::path& path, std::string_view text) {
  OutputFile file(path);
  file.write(text);
  file.close();
}

}  // namespace crownproof
