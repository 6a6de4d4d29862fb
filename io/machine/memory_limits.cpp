// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/memory_limits.hpp"

#include <sys/resource.h>

#include <algorithm>
#include <fstream>
#include <limits>
#include <optional>
#include <sstream>

#include "io/machine/proc_entry.hpp"

namespace crownproof {
namespace {

namespace fs = std::filesystem;

constexpr double no_limit = std::numeric_limits<double>::infinity();
constexpr double GiB = 1024.0 * 1024 * 1024;

/// A file that holds one number of bytes; nothing if it is missing or says "max".
std::optional<double> bytes_in(const fs::path& file) {
  std::ifstream in(file);
  if (double bytes = 0; in >> bytes) return bytes;
  return std::nullopt;
}

/// The entry "name 12345" of a memory.stat file; 0 if there is none.
double stat_entry(const fs::path& file, const std::string& name) {
  std::ifstream in(file);
  double bytes = 0;
  for (std::string word; in >> word >> bytes;)
    if (word == name) return bytes;
  return 0;
}

/// The names of the files of one version.
struct GroupFiles {
  const char *limit, *held, *cache;  ///< the last is an entry of memory.stat
};
constexpr GroupFiles version_1{"memory.limit_in_bytes", "memory.usage_in_bytes", "total_inactive_file"};
constexpr GroupFiles version_2{"memory.max", "memory.current", "inactive_file"};

/// Room in the group of a path and in all above it. In a container the path is that of the host: those of its
/// folders that are not to be seen are passed over.
double room_of_path(const fs::path& mount, const fs::path& group, const GroupFiles& files) {
  double room = no_limit;
  for (fs::path at = group.relative_path();; at = at.parent_path()) {
    const fs::path folder = mount / at;
    const auto limit = bytes_in(folder / files.limit), held = bytes_in(folder / files.held);
    if (limit && held)
      room = std::min(room, *limit - *held + stat_entry(folder / "memory.stat", files.cache));
    if (at.empty()) return room;
  }
}

double left_of(int resource, const char* held_kB) {
  rlimit limit{};
  if (::getrlimit(resource, &limit) != 0 || limit.rlim_cur == RLIM_INFINITY) return no_limit;
  return static_cast<double>(limit.rlim_cur) / GiB - proc_entry_GiB("/proc/self/status", held_kB);
}

}  // namespace

double room_of_process_GiB() {
  return std::max(0.0, std::min(left_of(RLIMIT_AS, "VmSize"), left_of(RLIMIT_DATA, "VmData")));
}

double room_of_groups_GiB(const fs::path& mounts, const std::string& membership) {
  double room = no_limit;
  std::istringstream lines(membership);
  // A line is "number:controllers:path"; version 2 has neither a number other than 0 nor controllers.
  for (std::string number, controllers, path; std::getline(lines, number, ':') &&
                                              std::getline(lines, controllers, ':') &&
                                              std::getline(lines, path);) {
    if (controllers.empty())
      for (const char* mount : {"", "unified"})
        room = std::min(room, room_of_path(mounts / mount, path, version_2));
    if (("," + controllers + ",").find(",memory,") != std::string::npos)
      room = std::min(room, room_of_path(mounts / "memory", path, version_1));
  }
  return std::max(0.0, room / GiB);
}

}  // namespace crownproof
