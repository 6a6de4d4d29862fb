// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/child_process.hpp"

#include <system_error>

#include <catch2/catch.hpp>

#include "io/machine/threads.hpp"

using namespace crownproof;
using namespace std::chrono_literals;

namespace {

ChildResult shell(const std::string& command, std::chrono::milliseconds silence = 20s,
                  const std::function<bool()>& stop = {}) {
  return run_child({"/bin/sh", "-c", command}, silence, stop);
}

}  // namespace

TEST_CASE("A child's words and exit code are known", "[child_process]") {
  const ChildResult result = shell("echo one; echo two >&2; exit 3");
  CHECK(result.said == "one\ntwo\n");
  CHECK(result.exit_code == 3);
  CHECK(result.ended_by.empty());
}

TEST_CASE("A child that crashes is told from one that ends", "[child_process]") {
  CHECK_THAT(shell("kill -ABRT $$").ended_by, Catch::Contains("Aborted"));
  CHECK_THROWS_AS(run_child({"/no/such/program"}, 20s), std::system_error);
}

TEST_CASE("A child that hangs is killed, one that works on is not", "[child_process]") {
  const auto start = std::chrono::steady_clock::now();
  const ChildResult hung = shell("echo begun; exec sleep 100", 300ms);
  CHECK_THAT(hung.ended_by, Catch::Contains("hung"));
  CHECK(hung.said == "begun\n");
  // Also one that closed its streams before.
  CHECK_THAT(shell("exec >&- 2>&-; exec sleep 100", 300ms).ended_by, Catch::Contains("hung"));
  CHECK(std::chrono::steady_clock::now() - start < 50s);
  CHECK(shell("for i in 1 2 3 4; do sleep 0.2; echo $i; done", 2s).ended_by.empty());
}

TEST_CASE("A child ends when its parent is asked to stop", "[child_process]") {
  int asked = 0;
  CHECK_THAT(shell("exec sleep 100", 20s, [&] { return ++asked > 2; }).ended_by,
             Catch::Contains("interrupted"));
}

TEST_CASE("At least this thread runs, and no more than wanted", "[threads]") {
  CHECK(startable_threads(1) == 1);
  CHECK(startable_threads(3) == 3);
}
