// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/output_file.hpp"

#include <csignal>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <catch2/catch.hpp>

#include "tests/support/scratch_folder.hpp"

using namespace crownproof;

TEST_CASE("A full disk is told with a remedy", "[output_file]") {
  CHECK_THROWS_WITH(write_file("/dev/full", "text"),
                    Catch::Contains("/dev/full") && Catch::Contains("the disk is full. Free some space"));
}

TEST_CASE("A limit on the size of files is told, not a signal", "[output_file]") {
  const ScratchFolder scratch;
  const pid_t child = ::fork();  // the limit cannot be taken back, so a child takes it
  REQUIRE(child >= 0);
  if (child == 0) {
    const rlimit limit{4096, 4096};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    int outcome = 1;
    try {
      write_file(scratch.path() / "big", std::string(10000, 'x'));
    } catch (const ResultsError& error) {
      outcome = std::string(error.what()).find("exceed the size allowed") == std::string::npos ? 2 : 0;
    }
    ::_exit(outcome);
  }
  int status = -1;
  REQUIRE(::waitpid(child, &status, 0) == child);
  REQUIRE(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
}

TEST_CASE("A file in a missing folder is told", "[output_file]") {
  CHECK_THROWS_AS(OutputFile("/no such folder/file"), ResultsError);
}
