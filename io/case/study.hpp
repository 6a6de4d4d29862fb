// SPDX-License-Identifier: AGPL-3.0-or-later
// `study: {vary: {key.path: [values]}}`: the values are put into the tree of the case before it is read, so
// any key can vary and every variant is checked as if it had been written out.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "io/fields/field_info.hpp"
#include "io/text/yaml.hpp"

namespace crownproof {

/// One case of a study: its tree and what was varied in it.
struct CaseTree {
  YamlNode root;
  std::vector<std::pair<std::string, std::string>>
      varied;  ///< key path and value as written; empty: plain case

  /// "occlusal thickness 0.8 mm", or "" for a plain case. Keys with the same last part are given with their
  /// path.
  std::string label() const;
};

/// Most variants of one study, and most keys it varies.
inline constexpr int most_variants = 500;
inline constexpr int most_varied_keys = 20;

/// All combinations of the values to vary (the last key changes fastest), or the case itself. Key paths go
/// through sections by key and through lists by position (from 1) or by the entry's `name`:
/// bites.clench.contacts.1.force_N. Throws UserError.
std::vector<CaseTree> expand_study(const YamlNode& root);

/// The `study` key, for the schema and the reference.
FieldInfo study_info();

}  // namespace crownproof
