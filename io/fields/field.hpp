// SPDX-License-Identifier: AGPL-3.0-or-later
// Declares a key once: its FieldInfo, the struct member it is read into and written from. A section is a list
// of such fields; defaults are the struct's own member initialisers.
//
//   const Section<Ball> ball{{required(number("radius_mm", &Ball::radius_mm, above(0, 50), "Radius of the
//   ball"))}}; const Ball value = read_section(ball, node, "ball");
#pragma once

#include <fmt/format.h>

#include <functional>
#include <map>
#include <utility>

#include "io/fields/field_info.hpp"
#include "io/text/yaml_scalar.hpp"

namespace crownproof {

/// A value that remembers where it was written, for errors found later.
template <class V>
struct Placed {
  V value{};
  Place place;
};

/// A key of the section that is read into T.
template <class T>
struct Field {
  FieldInfo info;
  /// Sets the member from the node.
  std::function<void(T&, const YamlNode&, const std::string& path)> assign;
  /// The member as it would be written, or nothing where it is not there. Empty for keys that are read only.
  std::function<YamlNode(const T&)> write = {};
};

/// The keys of T, the groups of which exactly one key must be given, and what else must hold.
template <class T>
struct Section {
  std::vector<Field<T>> fields{};
  std::vector<std::vector<std::string>> one_of{};
  std::function<void(const T&, const YamlNode&, const std::string& path)>
      check{};  ///< throws UserError; may be empty

  FieldInfo info(std::string key, FieldKind kind, std::string help) const {
    FieldInfo all{.key = std::move(key), .kind = kind, .help = std::move(help), .one_of = one_of};
    for (const Field<T>& field : fields) all.fields.push_back(field.info);
    return all;
  }
};

/// Reads a section. Throws UserError at the first thing that is wrong.
template <class T>
T read_section(const Section<T>& section, const YamlNode& node, const std::string& path) {
  check_keys(node, section.info("", FieldKind::section, ""), path);
  T value{};
  for (const Field<T>& field : section.fields)
    if (const YamlNode* found = node.find(field.info.key))
      field.assign(value, *found, join_path(path, field.info.key));
  if (section.check) section.check(value, node, path);
  return value;
}

/// A section as it would be written: what is not there or has its default is left out.
template <class T>
YamlNode write_section(const Section<T>& section, const T& value) {
  YamlNode map;
  map.kind = YamlKind::map;
  for (const Field<T>& field : section.fields) {
    if (!field.write) continue;
    YamlNode node = field.write(value);
    const bool is_default =
        node.kind == YamlKind::scalar && !field.info.required && node.text == field.info.default_text;
    if (node.kind == YamlKind::nothing || is_default) continue;
    map.keys.push_back({field.info.key, {}});
    map.items.push_back(std::move(node));
  }
  return map;
}

/// The same field, which now must be given.
template <class T>
Field<T> required(Field<T> field) {
  field.info.required = true;
  field.info.default_text.clear();
  return field;
}

namespace field_detail {
template <class V>
struct Inner {
  using type = V;
};
template <class V>
struct Inner<std::optional<V>> {
  using type = typename Inner<V>::type;
};
template <class V>
struct Inner<Placed<V>> {
  using type = typename Inner<V>::type;
};
template <class V, class S>
void set(V& member, S value, const Place&) {
  member = std::move(value);
}
template <class V, class S>
void set(std::optional<Placed<V>>& member, S value, const Place& place) {
  member = Placed<V>{std::move(value), place};
}
inline std::string number_default(const std::optional<double>& value, double factor) {
  return value ? fmt::format("{:.10g}", *value / factor) : "";
}
inline YamlNode scalar(const std::string& text, bool quoted = false) {
  YamlNode node;
  node.kind = text.empty() && !quoted ? YamlKind::nothing : YamlKind::scalar;
  node.text = text;
  node.quoted = quoted;
  return node;
}
/// A text in quotes, so that no character of it means anything; an empty one is not written.
inline YamlNode text_node(const std::string& text) {
  return scalar(text, !text.empty());
}
/// What is inside of a value that may be missing, or the value itself.
template <class V>
const V* inside(const V& value) {
  return &value;
}
template <class V>
const V* inside(const std::optional<V>& value) {
  return value ? &*value : nullptr;
}
template <class V>
const V* inside(const std::optional<Placed<V>>& value) {
  return value ? &value->value : nullptr;
}
}  // namespace field_detail

/// A number; V is double or std::optional<double>. The member holds the written number times `factor`: 0.001
/// for a key in micrometres and a member in millimetres.
template <class T, class V>
Field<T> number(const std::string& key, V T::*member, Bounds bounds, const std::string& help,
                double factor = 1) {
  FieldInfo info{.key = key, .kind = FieldKind::number, .help = help, .bounds = bounds};
  info.default_text = field_detail::number_default(T{}.*member, factor);
  return {info,
          [info, member, factor](T& target, const YamlNode& node, const std::string& path) {
            const double value = to_number(node, "'" + path + "'");
            check_bounds(value, node, info, path);
            target.*member = value * factor;
          },
          [member, factor](const T& value) {
            return field_detail::scalar(field_detail::number_default(value.*member, factor));
          }};
}

/// A number whose place is kept, for checks that need more than this key.
template <class T>
Field<T> placed_number(const std::string& key, std::optional<Placed<double>> T::*member, Bounds bounds,
                       const std::string& help) {
  const FieldInfo info{.key = key, .kind = FieldKind::number, .help = help, .bounds = bounds};
  return {info, [info, member](T& target, const YamlNode& node, const std::string& path) {
            const double value = to_number(node, "'" + path + "'");
            check_bounds(value, node, info, path);
            target.*member = Placed<double>{value, node.place};
          }};
}

template <class T>
Field<T> whole_number(const std::string& key, int T::*member, Bounds bounds, const std::string& help) {
  FieldInfo info{.key = key, .kind = FieldKind::whole_number, .help = help, .bounds = bounds};
  info.default_text = fmt::format("{}", T{}.*member);
  return {info,
          [info, member](T& target, const YamlNode& node, const std::string& path) {
            const int value = to_whole_number(node, "'" + path + "'");
            check_bounds(value, node, info, path);
            target.*member = value;
          },
          [member](const T& value) { return field_detail::scalar(fmt::format("{}", value.*member)); }};
}

template <class T>
Field<T> truth(const std::string& key, bool T::*member, const std::string& help) {
  FieldInfo info{.key = key, .kind = FieldKind::truth, .help = help};
  info.default_text = T{}.*member ? "true" : "false";
  return {info,
          [member](T& target, const YamlNode& node, const std::string& path) {
            target.*member = to_truth(node, "'" + path + "'");
          },
          [member](const T& value) { return field_detail::scalar(value.*member ? "true" : "false"); }};
}

template <class T>
Field<T> text(const std::string& key, std::string T::*member, const std::string& help) {
  return {{.key = key, .kind = FieldKind::text, .help = help},
          [member](T& target, const YamlNode& node, const std::string& path) {
            target.*member = to_text(node, "'" + path + "'");
          },
          [member](const T& value) { return field_detail::text_node(value.*member); }};
}

template <class T>
Field<T> texts(const std::string& key, std::vector<Placed<std::string>> T::*member, const std::string& help) {
  return {{.key = key, .kind = FieldKind::texts, .help = help},
          [member](T& target, const YamlNode& node, const std::string& path) {
            for (const YamlNode& item : to_list(node, path))
              (target.*member).push_back({to_text(item, "'" + path + "'"), item.place});
          },
          [member](const T& value) {
            YamlNode list;
            for (const auto& item : value.*member) list.items.push_back(field_detail::text_node(item.value));
            if (!list.items.empty()) list.kind = YamlKind::list;
            return list;
          }};
}

/// One of the named values of an enumeration (or of text).
template <class T, class E>
Field<T> choice(const std::string& key, E T::*member, const std::vector<std::pair<std::string, E>>& values,
                const std::string& help) {
  FieldInfo info{.key = key, .kind = FieldKind::choice, .help = help};
  for (const auto& [name, value] : values) {
    info.choices.push_back(name);
    if (value == T{}.*member) info.default_text = name;
  }
  return {info,
          [info, values, member](T& target, const YamlNode& node, const std::string& path) {
            target.*member = values[to_choice(node, info.choices, path)].second;
          },
          [values, member](const T& value) {
            for (const auto& [name, known] : values)
              if (known == value.*member) return field_detail::scalar(name);
            return YamlNode{};
          }};
}

/// A section read into a struct S or std::optional<S>.
template <class T, class V>
Field<T> section(const std::string& key, V T::*member,
                 const Section<typename field_detail::Inner<V>::type>& inner, const std::string& help) {
  return {inner.info(key, FieldKind::section, help),
          [inner, member](T& target, const YamlNode& node, const std::string& path) {
            field_detail::set(target.*member, read_section(inner, node, path), node.place);
          },
          [inner, member](const T& value) {
            const auto* const there = field_detail::inside(value.*member);
            return there ? write_section(inner, *there) : YamlNode{};
          }};
}

/// A list of sections.
template <class T, class S>
Field<T> sections(const std::string& key, std::vector<S> T::*member, const Section<S>& inner,
                  const std::string& help) {
  return {inner.info(key, FieldKind::sections, help),
          [inner, member](T& target, const YamlNode& node, const std::string& path) {
            int n = 0;
            for (const YamlNode& item : to_list(node, path))
              (target.*member).push_back(read_section(inner, item, fmt::format("{}.{}", path, ++n)));
          },
          [inner, member](const T& value) {
            YamlNode list;
            for (const S& item : value.*member) list.items.push_back(write_section(inner, item));
            if (!list.items.empty()) list.kind = YamlKind::list;
            return list;
          }};
}

}  // namespace crownproof
