// SPDX-License-Identifier: AGPL-3.0-or-later
// The key of a part that says what it is made of: a material's name, or the constants themselves.
#pragma once

#include "io/case/case_file.hpp"

namespace crownproof {

/// Name or constants of the material of a part of T.
template <class T>
Field<T> material_field(const std::string& key, std::optional<Placed<MaterialChoice>> T::*member,
                        const std::string& help) {
  FieldInfo info{.key = key, .kind = FieldKind::either, .help = help};
  info.fields.push_back({.key = key,
                         .kind = FieldKind::text,
                         .help = "Name of a material ('crownproof materials' lists them)"});
  info.fields.push_back(material_section().info(key, FieldKind::section, "The material itself"));
  return {info, [key, member](T& target, const YamlNode& node, const std::string& path) {
            if (node.kind == YamlKind::map) {
              MaterialData material = read_section(material_section(), node, path);
              material.name = material.description.empty() ? "given for the " + key : material.description;
              target.*member = Placed<MaterialChoice>{std::move(material), node.place};
            } else {
              target.*member = Placed<MaterialChoice>{to_text(node, "'" + path + "'"), node.place};
            }
          }};
}

}  // namespace crownproof
