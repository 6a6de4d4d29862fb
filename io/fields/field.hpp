// SPDX-License-Identifier: AGPL-3.0-or-later
// Declares a key once: its FieldInfo and the struct member it is read into. A section is a list of such
// fields; defaults are the struct's own member initialisers.
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
  std::function<void(T&, const YamlNode&, const std::string& path)>
      assign;  ///< sets the member from the node
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
}  // namespace field_detail

/// A number; V is double or std::optional<double>. The member holds the written number times `factor`: 0.001
/// for a key in micrometres and a member in millimetres.
template <class T, class V>
Field<T> number(const std::string& key, V T::*member, Bounds bounds, const std::string& help,
                double factor = 1) {
  FieldInfo info{.key = key, .kind = FieldKind::number, .help = help, .bounds = bounds};
  info.default_text = field_detail::number_default(T{}.*member, factor);
  return {info, [info, member, factor](T& target, const YamlNode& node, const std::string& path) {
            const double value = to_number(node, "'" + path + "'");
            check_bounds(value, node, info, path);
            target.*member = value * factor;
          }};
}

template <class T>
Field<T> whole_number(const std::string& key, int T::*member, Bounds bounds, const std::string& help) {
  FieldInfo info{.key = key, .kind = FieldKind::whole_number, .help = help, .bounds = bounds};
  info.default_text = fmt::format("{}", T{}.*member);
  return {info, [info, member](T& target, const YamlNode& node, const std::string& path) {
            const int value = to_whole_number(node, "'" + path + "'");
            check_bounds(value, node, info, path);
            target.*member = value;
          }};
}

template <class T>
Field<T> truth(const std::string& key, bool T::*member, const std::string& help) {
  FieldInfo info{.key = key, .kind = FieldKind::truth, .help = help};
  info.default_text = T{}.*member ? "true" : "false";
  return {info, [member](T& target, const YamlNode& node, const std::string& path) {
            target.*member = to_truth(node, "'" + path + "'");
          }};
}

template <class T>
Field<T> text(const std::string& key, std::string T::*member, const std::string& help) {
  return {{.key = key, .kind = FieldKind::text, .help = help},
          [member](T& target, const YamlNode& node, const std::string& path) {
            target.*member = to_text(node, "'" + path + "'");
          }};
}

template <class T>
Field<T> texts(const std::string& key, std::vector<Placed<std::string>> T::*member, const std::string& help) {
  return {{.key = key, .kind = FieldKind::texts, .help = help},
          [member](T& target, const YamlNode& node, const std::string& path) {
            for (const YamlNode& item : to_list(node, path))
              (target.*member).push_back({to_text(item, "'" + path + "'"), item.place});
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
  return {info, [info, values, member](T& target, const YamlNode& node, const std::string& path) {
            target.*member = values[to_choice(node, info.choices, path)].second;
          }};
}

/// A section read into a struct S or std::optional<S>.
template <class T, class V>
Field<T> section(const std::string& key, V T::*member,
                 const Section<typename field_detail::Inner<V>::type>& inner, const std::string& help) {
  return {inner.info(key, FieldKind::section, help),
          [inner, member](T& target, const YamlNode& node, const std::string& path) {
            field_detail::set(target.*member, read_section(inner, node, path), node.place);
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
              (target.*member).push_back(read_section(inner, item, fmt::format("{}[{}]", path, ++n)));
          }};
}

}  // namespace crownproof
