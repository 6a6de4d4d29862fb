// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/csv_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace crownproof {
namespace {

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string result = "\"";
  for (const char c : text) result += c == '"' ? std::string("\"\"") : std::string(1, c);
  return result + "\"";
}

}  // namespace

std::string csv_line(const std::vector<std::string>& cells) {
  std::vector<std::string> all;
  all.reserve(cells.size());
  for (const std::string& cell : cells) all.push_back(quoted(cell));
  return fmt::format("{}\r\n", fmt::join(all, ","));
}

}  // namespace crownproof
