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

/// Known keys that end in the word: "thickness_mm" of "occlusal_thickness_mm".
std::vector<std::string> with_that_ending(const std::string& word, const std::vector<std::string>& known) {
  std::vector<std::string> found;
  for (const std::string& candidate : known)
    if (word.size() > 3 && candidate.ends_with("_" + word)) found.push_back(candidate);
  return found;
}

/// What a key that is none betrays of its writer, as a remedy; empty if nothing.
std::string slip_of(const std::string& word) {
  const std::size_t colon = word.find(':');
  if (colon != std::string::npos && colon > 0)
    return fmt::format(" Leave a space after the colon: '{}: {}'.", word.substr(0, colon),
                       word.substr(colon + 1));
  if (!word.empty() && word.find_first_not_of("0123456789") == std::string::npos)
    return " If a number was meant to have a decimal comma, write a decimal point.";
  return "";
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
  const std::vector<std::string> longer = with_that_ending(word, known);
  std::string sentence = fmt::format("unknown {} '{}'{}", kind, shortened(word), where);
  if (!nearest.empty() && lacks_only_its_ending(word, nearest) && kind == "key")
    sentence += fmt::format("; units are part of the key: write {}.", nearest);
  else if (!longer.empty() && (nearest.empty() || edit_distance(word, nearest) > 2))
    sentence += fmt::format("; did you mean '{}'?", fmt::join(longer, "' or '"));
  else if (!nearest.empty())
    sentence += fmt::format("; did you mean '{}'?", nearest);
  else
    sentence += ".";
  if (kind == "key") sentence += slip_of(word);
  if (known.empty()) return sentence;
  return sentence + fmt::format(" Allowed: {}.", fmt::join(known, ", "));
}

}  // namespace crownproof
