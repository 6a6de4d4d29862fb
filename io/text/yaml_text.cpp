// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/text/yaml_text.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crownproof {
namespace {

constexpr std::size_t width = 100;

std::string scalar_text(const YamlNode& node) {
  if (node.kind == YamlKind::nothing) return "null";
  if (!node.quoted) return node.text;
  std::string doubled;
  for (const char c : node.text) {
    if (c == '\n') {
      doubled += ' ';  // a line break inside single quotes is folded to a space
      continue;
    }
    doubled.append(c == '\'' ? 2 : 1, c);
  }
  return fmt::format("'{}'", doubled);
}

bool is_scalar(const YamlNode& node) {
  return node.kind == YamlKind::scalar || node.kind == YamlKind::nothing;
}

/// On one line, with braces and brackets.
std::string flow_text(const YamlNode& node) {
  if (is_scalar(node)) return scalar_text(node);
  const bool map = node.kind == YamlKind::map;
  std::string text;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    if (i > 0) text += ", ";
    if (map) text += node.keys[i].text + ": ";
    text += flow_text(node.items[i]);
  }
  return map ? fmt::format("{{{}}}", text) : fmt::format("[{}]", text);
}

/// Short enough, and not nested deeper than a list of scalars in a map.
bool fits_a_line(const YamlNode& node, int indent) {
  const auto simple = [](const YamlNode& item) {
    return is_scalar(item) ||
           (item.kind == YamlKind::list && std::all_of(item.items.begin(), item.items.end(), is_scalar));
  };
  return is_scalar(node) || (std::all_of(node.items.begin(), node.items.end(), simple) &&
                             flow_text(node).size() + static_cast<std::size_t>(indent) < width);
}

std::string entry(const std::string& lead, const YamlNode& node, int indent) {
  const std::string start = std::string(static_cast<std::size_t>(indent), ' ') + lead;
  if (fits_a_line(node, indent + static_cast<int>(lead.size()))) return start + " " + flow_text(node) + "\n";
  return start + "\n" + yaml_text(node, indent + 2);
}

}  // namespace

std::string yaml_text(const YamlNode& node, int indent) {
  std::string text;
  if (is_scalar(node)) return std::string(static_cast<std::size_t>(indent), ' ') + scalar_text(node) + "\n";
  for (std::size_t i = 0; i < node.items.size(); ++i)
    text += entry(node.kind == YamlKind::map ? node.keys[i].text + ":" : "-", node.items[i], indent);
  return text;
}

}  // namespace crownproof
