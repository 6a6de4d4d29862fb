// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/nearest_key.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace crownproof {
namespace {

/// Words longer than this are cut in messages and never compared: the comparison is quadratic.
constexpr std::size_t longest_word = 80;

bool lacks_only_its_ending(const std::string& word, const std::string& known) {
  return known.size() > word.size() && known.compare(0, word.size(), word) == 0 && known[word.size()] == '_';
}

}  // namespace

std::string shortened(const std::string& word) {
  if (word.size() <= longest_word) return word;
  std::size_t cut = longest_word;
  while (cut > 0 && (static_cast<unsigned char>(word[cut]) & 0xC0) == 0x80) --cut;  // not inside a character
  return word.substr(0, cut) + "...";
}

int edit_distance(const std::string& a, const std::string& b) {
  const int n = static_cast<int>(a.size());
  const int m = static_cast<int>(b.size());
  std::vector<std::vector<int>> d(n + 1, std::vector<int>(m + 1, 0));
  for (int i = 0; i <= n; ++i) d[i][0] = i;
  for (int j = 0; j <= m; ++j) d[0][j] = j;
  for (int i = 1; i <= n; ++i)
    for (int j = 1; j <= m; ++j) {
      const int replace = d[i - 1][j - 1] + (a[i - 1] != b[j - 1]);
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, replace});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  return d[n][m];
}

std::string nearest_key(const std::string& word, const std::vector<std::string>& known) {
  if (word.empty() || word.size() > longest_word) return "";
  for (const std::string& candidate : known)
    if (lacks_only_its_ending(word, candidate)) return candidate;
  std::string best;
  int best_distance = std::max(1, static_cast<int>(word.size()) / 3) + 1;
  for (const std::string& candidate : known) {
    const int distance = edit_distance(word, candidate);
    if (distance < best_distance) {
      best = candidate;
      best_distance = distance;
    }
  }
  return best;
}

std::string unknown_word(const std::string& kind, const std::string& word, const std::string& where,
                         const std::vector<std::string>& known) {
  const std::string nearest = nearest_key(word, known);
  std::string sentence = fmt::format("unknown {} '{}'{}", kind, shortened(word), where);
  if (!nearest.empty() && lacks_only_its_ending(word, nearest) && kind == "key")
    sentence += fmt::format("; units are part of the key: write {}.", nearest);
  else if (!nearest.empty())
    sentence += fmt::format("; did you mean '{}'?", nearest);
  else
    sentence += ".";
  if (known.empty()) return sentence;
  return sentence + fmt::format(" Allowed: {}.", fmt::join(known, ", "));
}

}  // namespace crownproof
