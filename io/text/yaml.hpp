// SPDX-License-Identifier: AGPL-3.0-or-later
// A strict subset of YAML as a tree that knows where each key and value stands.
//
// YAML allows more than a case file should: duplicate keys, anchors and aliases (which can blow a small file
// up to gigabytes), merge keys, tags, several documents. All of these are refused in words. What remains is
// maps, lists and scalars; what a scalar means is decided by io/text/yaml_scalar.hpp, not guessed here.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "io/text/user_error.hpp"

namespace crownproof {

enum class YamlKind { nothing, scalar, list, map };

/// A key of a map and where it stands.
struct YamlKey {
  std::string text;
  Place place;
};

/// A value: nothing (an empty value, ~ or null), a scalar, a list or a map.
struct YamlNode {
  YamlKind kind = YamlKind::nothing;
  Place place;                  ///< of the value; for nothing: of its key
  std::string text;             ///< of a scalar, as written (quotes and escapes resolved)
  bool quoted = false;          ///< the scalar stood in quotes or is a block of text
  std::vector<YamlKey> keys;    ///< of a map; keys[i] belongs to items[i]
  std::vector<YamlNode> items;  ///< of a list or a map

  /// The value of a key, or nullptr.
  const YamlNode* find(const std::string& key) const;
};

/// Deepest nesting accepted; the deepest case file needs about eight levels.
inline constexpr int deepest_yaml = 32;

/// Most keys of one map; a large materials file has some hundreds.
inline constexpr int most_yaml_keys = 2000;

/// Parses the text of one document. `file` is used in places. Throws UserError.
YamlNode parse_yaml(const std::string& text, const std::string& file);

/// Reads and parses a file. Places name the file as given.
YamlNode read_yaml(const std::filesystem::path& file);

/// "a map", "a list", "a number or text", "nothing": for messages.
std::string describe(const YamlNode& node);

}  // namespace crownproof
