// SPDX-License-Identifier: AGPL-3.0-or-later
// What goes wrong on one of several threads reaches the caller (a region that an exception leaves ends the
// program), and every index is worked on once.
#include "mesh/parallel.hpp"

#include <new>
#include <stdexcept>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using namespace crownproof;

namespace {

/// As many threads as a test needs, whatever the machine has.
class Threads {
 public:
  explicit Threads(int n) : before_(omp_get_max_threads()) { omp_set_num_threads(n); }
  ~Threads() { omp_set_num_threads(before_); }
  Threads(const Threads&) = delete;
  Threads& operator=(const Threads&) = delete;

 private:
  int before_;
};

}  // namespace

TEST_CASE("Memory that runs out on any thread is told to the caller") {
  const int n_threads = GENERATE(1, 2, 4);
  const Threads threads(n_threads);
  const auto no_memory_at = [](int bad) {
    return [bad](int i) {
      if (i == bad) throw std::bad_alloc();
    };
  };
  for (const int bad : {0, 500, 999}) {
    CHECK_THROWS_AS(parallel_for(1000, no_memory_at(bad)), std::bad_alloc);
    CHECK_THROWS_AS(parallel_for_chunks(1000, 16, no_memory_at(bad)), std::bad_alloc);
  }
  CHECK_NOTHROW(parallel_for(1000, no_memory_at(1000)));
  CHECK_THROWS_AS(in_team(n_threads, [] { throw std::bad_alloc(); }), std::bad_alloc);
}

TEST_CASE("Of several errors that of the smallest index is told, however the threads run") {
  const Threads threads(4);
  const auto fail = [](int i) {
    if (i >= 100) throw std::runtime_error(std::to_string(i));
  };
  for (int run = 0; run < 20; ++run) {
    CHECK_THROWS_WITH(parallel_for(1000, fail), "100");
    CHECK_THROWS_WITH(parallel_for_chunks(1000, 1, fail), "100");
  }
}

TEST_CASE("Each index is worked on once") {
  const Threads threads(4);
  std::vector<int> worked(1000, 0);
  parallel_for(worked.size(), [&](std::size_t i) { ++worked[i]; });
  parallel_for_chunks(worked.size(), 16, [&](std::size_t i) { ++worked[i]; });
  in_team(4, [&] {
#pragma omp for
    for (int i = 0; i < 1000; ++i) ++worked[i];
  });
  CHECK(worked == std::vector<int>(1000, 3));
}
