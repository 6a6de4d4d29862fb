// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/accuracy/memory_need.hpp"

#include <catch2/catch.hpp>

#include "solver/accuracy/refine.hpp"
#include "solver/model/model.hpp"

using namespace crownproof;

namespace {

Model model(double available_GiB, double stress_percent = 0) {
  Model m;
  m.bites.resize(2);
  m.accuracy = {.cells = 400000, .stress_percent = stress_percent, .available_memory_GiB = available_GiB};
  return m;
}

}  // namespace

TEST_CASE("The cells that fit are those whose predicted memory is there", "[memory_need]") {
  for (const double GiB : {0.2, 1.0, 30.0}) {
    const int cells = cells_that_fit(GiB, 8);
    CHECK(predicted_memory_GiB(cells, 8) <= Approx(GiB));
    CHECK(predicted_memory_GiB(cells + 10, 8) > GiB);
  }
  CHECK(cells_that_fit(0.01, 8) == 0);
}

TEST_CASE("A mesh that memory cannot hold is refused with need, what is there and what fits",
          "[memory_need]") {
  const Model small = model(predicted_memory_GiB(150500, 8));
  CHECK_NOTHROW(refuse_too_large(small, 150000));
  CHECK_THROWS_AS(refuse_too_large(small, 151000), TooLittleMemory);
  CHECK_THROWS_WITH(refuse_too_large(small, asked_cells(small)),
                    Catch::Contains("400000 cells needs about 1.5 GiB") &&
                        Catch::Contains("645 MiB are there") && Catch::Contains("'accuracy: cells: 150000'"));
  CHECK_THROWS_WITH(refuse_too_large(model(0.1), 400000), Catch::Contains("Not even the coarsest mesh"));
  CHECK_NOTHROW(refuse_too_large(model(0), 1e9));  // nothing is known
}

TEST_CASE("When memory ran out all the same the advice is fewer cells than failed", "[memory_need]") {
  CHECK_THAT(memory_ran_out(model(50), 100000).what(),
             Catch::Contains("Memory ran out") && Catch::Contains("'accuracy: cells: 70000'"));
  CHECK_THAT(memory_ran_out(model(50, 5), 100000).what(), Catch::Contains("'accuracy: max_cells: 70000'"));
  CHECK_THAT(memory_ran_out(model(0), 0).what(), Catch::Contains("Memory ran out. "));
}
