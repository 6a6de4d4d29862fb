// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/file_name.hpp"

#include <algorithm>
#include <cctype>

namespace crownproof {

std::string file_safe(std::string_view name, std::string_view otherwise) {
  std::string safe;
  for (const char c : name.substr(0, 60)) {
    const bool plain =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
    if (plain && !(c == '.' && safe.empty()))
      safe += c;
    else if (!safe.empty() && safe.back() != '_')
      safe += '_';
  }
  while (!safe.empty() && (safe.back() == '_' || safe.back() == '.')) safe.pop_back();
  return safe.empty() ? std::string(otherwise) : safe;
}

}  // namespace crownproof
