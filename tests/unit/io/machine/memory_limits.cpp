// SPDX-License-Identifier: AGPL-3.0-or-later
// The files are as the Linux kernel documentation describes them (admin-guide/cgroup-v1/memory, cgroup-v2).
#include "io/machine/memory_limits.hpp"

#include <sys/resource.h>
#include <unistd.h>

#include <cmath>
#include <fstream>

#include <catch2/catch.hpp>

#include "io/machine/memory.hpp"
#include "io/machine/proc_entry.hpp"

using namespace crownproof;
namespace fs = std::filesystem;

namespace {

/// Files of control groups in a folder of their own.
class GroupTree {
 public:
  GroupTree() : mounts(fs::temp_directory_path() / ("groups-" + std::to_string(::getpid()))) {
    fs::remove_all(mounts);
    fs::create_directories(mounts);
  }
  ~GroupTree() { fs::remove_all(mounts); }
  GroupTree(const GroupTree&) = delete;
  GroupTree& operator=(const GroupTree&) = delete;

  void write(const std::string& file, const std::string& text) const {
    fs::create_directories((mounts / file).parent_path());
    std::ofstream(mounts / file) << text << "\n";
  }
  const fs::path mounts;
};

constexpr const char *GiB_1 = "1073741824", *GiB_2 = "2147483648", *GiB_half = "536870912";

}  // namespace

TEST_CASE("A control group of version 2 leaves what its smallest ancestor leaves", "[memory]") {
  const GroupTree tree;
  tree.write("batch/memory.max", GiB_2);
  tree.write("batch/memory.current", GiB_1);
  tree.write("batch/memory.stat", "anon 536870912\ninactive_file 536870912");
  tree.write("batch/job/memory.max", "max");
  tree.write("batch/job/memory.current", GiB_1);
  CHECK(room_of_groups_GiB(tree.mounts, "0::/batch/job\n") == Approx(1.5));
  tree.write("batch/job/memory.max", GiB_2);
  CHECK(room_of_groups_GiB(tree.mounts, "0::/batch/job\n") == Approx(1.0));
  // Inside a container the path of the host is not to be seen, and its group is the root.
  tree.write("memory.max", GiB_1);
  tree.write("memory.current", GiB_half);
  CHECK(room_of_groups_GiB(tree.mounts, "0::/docker/0123\n") == Approx(0.5));
}

TEST_CASE("A control group of version 1 is known, and nothing is made up without limits", "[memory]") {
  const GroupTree tree;
  CHECK(std::isinf(room_of_groups_GiB(tree.mounts, "4:memory:/job\n0::/\n")));
  CHECK(std::isinf(room_of_groups_GiB(tree.mounts, "")));
  tree.write("memory/job/memory.limit_in_bytes", GiB_2);
  tree.write("memory/job/memory.usage_in_bytes", GiB_half);
  CHECK(room_of_groups_GiB(tree.mounts, "9:cpu:/job\n4:memory:/job\n0::/\n") == Approx(1.5));
  tree.write("memory/job/memory.usage_in_bytes", "3221225472");  // over the limit: nothing, not less
  CHECK(room_of_groups_GiB(tree.mounts, "4:hugetlb,memory:/job\n") == 0);
}

TEST_CASE("A limit of the address space counts as memory that is not there", "[memory]") {
  rlimit before{};
  REQUIRE(::getrlimit(RLIMIT_AS, &before) == 0);
  if (before.rlim_cur == RLIM_INFINITY) CHECK(std::isinf(room_of_process_GiB()));
  const double held = proc_entry_GiB("/proc/self/status", "VmSize");
  rlimit limit = before;
  limit.rlim_cur = static_cast<rlim_t>((held + 0.5) * 1024 * 1024 * 1024);
  REQUIRE(::setrlimit(RLIMIT_AS, &limit) == 0);
  const double room = room_of_process_GiB(), available = available_memory_GiB();
  REQUIRE(::setrlimit(RLIMIT_AS, &before) == 0);
  CHECK(room == Approx(0.5).margin(0.02));
  CHECK(available == Approx(0.45 + proc_entry_GiB("/proc/self/status", "VmRSS")).margin(0.02));
}
