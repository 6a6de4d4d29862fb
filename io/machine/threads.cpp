// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/machine/threads.hpp"

#include <exception>
#include <latch>
#include <thread>
#include <vector>

namespace crownproof {

int startable_threads(int wanted) {
  std::latch counted(1);
  std::vector<std::jthread> others;
  try {
    others.reserve(wanted);
    // Each waits until all were tried: only together do they tell how many there may be.
    while (static_cast<int>(others.size()) + 1 < wanted) others.emplace_back([&] { counted.wait(); });
  } catch (const std::exception&) {  // no more of them: that is the answer
  }
  counted.count_down();
  return static_cast<int>(others.size()) + 1;
}

}  // namespace crownproof
