// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/stage_words.hpp"
#include "solver/accuracy/pass.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

using namespace crownproof;
using Catch::Matchers::Contains;

TEST_CASE("The status line says what a finer mesh will cost before it begins", "[stage_words]") {
  CHECK(stage_words({.name = StageName::mesh}) == "mesh");
  CHECK(stage_words({.name = StageName::fracture, .pass = 3}) == "fracture");
  CHECK(stage_words({.name = StageName::mesh,
                     .pass = 3,
                     .predicted_cells = 180000,
                     .predicted_memory_GiB = 0.62,
                     .work_ratio = 1.8}) ==
        "mesh (pass 3: about 180000 cells, 0.6 GiB, 1.8 times the work of the pass before)");
}

TEST_CASE("Every reason to stop is a sentence with its figures", "[stage_words]") {
  Stop stop{.asked_percent = 5, .passes = 3, .max_cells = 400};
  const auto words = [&](StopReason reason) {
    stop.reason = reason;
    return stop_words(stop);
  };
  CHECK(words(StopReason::goes_on).empty());
  CHECK_THAT(words(StopReason::no_accuracy_asked), Contains("a scouting mesh"));
  CHECK_THAT(words(StopReason::nothing_settles), Contains("No tension settles"));
  CHECK_THAT(words(StopReason::accurate_enough), Contains("known within the asked 5 %"));
  CHECK_THAT(words(StopReason::passes_used_up), Contains("3 meshes were made, the most"));
  CHECK_THAT(words(StopReason::cells_used_up),
             Contains("budget of 400 cells") && Contains("5 %") && Contains("raise max_cells"));
  stop.wished_cells = 720000;
  stop.needed_GiB = 2.34;
  stop.free_GiB = 1.2;
  CHECK_THAT(words(StopReason::too_little_memory),
             Contains("720000 cells") && Contains("2.3 GiB of memory") && Contains("1.2 GiB are free"));
}
