// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/remark.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crownproof {

std::vector<std::string> remark_sentences(const std::vector<Remark>& remarks) {
  struct Told {
    const Remark* first;
    int times;
  };
  std::vector<Told> told;
  for (const Remark& remark : remarks) {
    const auto same = std::find_if(told.begin(), told.end(),
                                   [&](const Told& t) { return t.first->sentence == remark.sentence; });
    if (same == told.end())
      told.push_back({&remark, 1});
    else
      ++same->times;
  }
  std::vector<std::string> sentences;
  for (const auto& [first, times] : told) {
    const std::string where = first->place.line == 0 ? ""
                              : times == 1
                                  ? fmt::format(" (line {})", first->place.line)
                                  : fmt::format(" ({} times, first in line {})", times, first->place.line);
    sentences.push_back(fmt::format("{}{}.", first->sentence, where));
  }
  return sentences;
}

}  // namespace crownproof
