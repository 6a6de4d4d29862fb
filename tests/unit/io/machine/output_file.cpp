// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/output_file.hpp"

#include <catch2/catch.hpp>

#include "tests/support/file_size_limit.hpp"
#include "tests/support/scratch_folder.hpp"

using namespace crownproof;

TEST_CASE("A full disk is told with a remedy", "[output_file]") {
  CHECK_THROWS_WITH(write_file("/dev/full", "text"),
                    Catch::Contains("/dev/full") && Catch::Contains("the disk is full. Free some space"));
}

TEST_CASE("A limit on the size of files is told, not a signal", "[output_file]") {
  const ScratchFolder scratch;
  const FileSizeLimit limit(4096);
  CHECK_THROWS_WITH(write_file(scratch.path() / "big", std::string(10000, 'x')),
                    Catch::Contains("exceed the size allowed"));
}

TEST_CASE("A file in a missing folder is told", "[output_file]") {
  CHECK_THROWS_AS(OutputFile("/no such folder/file"), ResultsError);
}
