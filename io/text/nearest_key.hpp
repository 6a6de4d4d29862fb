// SPDX-License-Identifier: AGPL-3.0-or-later
// Which known word was probably meant.
#pragma once

#include <string>
#include <vector>

namespace crownproof {

/// The text, cut to 80 bytes with "..." if it is longer: for messages that quote what a file says.
std::string shortened(const std::string& text);

/// Number of single-letter insertions, deletions, replacements and swaps of neighbours between two words
/// (optimal string alignment distance; Damerau 1964, Levenshtein 1966).
int edit_distance(const std::string& a, const std::string& b);

/// The known word nearest to `word`, or "" if none is near. A word that lacks only its unit or ending
/// ("thickness" for "thickness_mm") counts as near; otherwise about a third of the letters may differ.
std::string nearest_key(const std::string& word, const std::vector<std::string>& known);

/// "unknown key 'x' in 'y'; did you mean 'z'? Allowed: ...": with the remedy that fits. `kind` is the word
/// for what is unknown ("key", "material", "landmark"), `where` "" or " in 'crown'".
std::string unknown_word(const std::string& kind, const std::string& word, const std::string& where,
                         const std::vector<std::string>& known);

}  // namespace crownproof
