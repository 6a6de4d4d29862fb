// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/memory.hpp"

#include <vector>

#include <catch2/catch.hpp>

using namespace crownproof;

TEST_CASE("The peak of memory is what was held at most", "[memory]") {
  CHECK(available_memory_GiB() > 0);
  restart_peak_memory();
  const double before = peak_memory_GiB();
  CHECK(before > 0);
  {
    // Written to, so that the system really gives the pages; by way of a volatile, so that it is not left
    // out.
    std::vector<char> much(256u << 20);
    for (std::size_t i = 0; i < much.size(); i += 4096) const_cast<volatile char&>(much[i]) = 1;
  }
  const double after = peak_memory_GiB();
  CHECK(after - before == Approx(0.25).margin(0.03));
  CHECK(peak_memory_GiB() >= after);
}
