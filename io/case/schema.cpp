// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/schema.hpp"

#include <nlohmann/json.hpp>

#include "io/case/case_fields.hpp"
#include "io/case/study.hpp"
#include "io/materials/materials_library.hpp"

namespace crownproof {
namespace {

using Json = nlohmann::ordered_json;

Json schema_of(const FieldInfo& field);

Json object_of(const FieldInfo& field) {
  Json object{{"type", "object"}, {"additionalProperties", false}};
  Json properties = Json::object();
  Json required = Json::array();
  for (const FieldInfo& inner : field.fields) {
    properties[inner.key] = schema_of(inner);
    if (inner.required) required.push_back(inner.key);
  }
  object["properties"] = properties;
  if (!required.empty()) object["required"] = required;
  Json groups = Json::array();
  for (const auto& group : field.one_of) {
    Json one = Json::array();
    for (const std::string& key : group) one.push_back({{"required", {key}}});
    groups.push_back({{"oneOf", one}});
  }
  if (!groups.empty()) object["allOf"] = groups;
  return object;
}

Json number_of(const FieldInfo& field) {
  Json number{{"type", field.kind == FieldKind::whole_number ? "integer" : "number"}};
  if (field.bounds.low)
    number[field.bounds.low_excluded ? "exclusiveMinimum" : "minimum"] = *field.bounds.low;
  if (field.bounds.high) number["maximum"] = *field.bounds.high;
  if (!field.default_text.empty()) number["default"] = Json::parse(field.default_text);
  return number;
}

Json list_of(Json items) {
  return {{"type", "array"}, {"items", std::move(items)}, {"minItems", 1}};
}

Json either_of(const FieldInfo& field) {
  Json alternatives = Json::array();
  for (const FieldInfo& alternative : field.fields) alternatives.push_back(schema_of(alternative));
  return {{"anyOf", alternatives}};
}

Json kind_of(const FieldInfo& field) {
  switch (field.kind) {
    case FieldKind::number:
    case FieldKind::whole_number:
      return number_of(field);
    case FieldKind::truth:
      return {{"type", "boolean"}, {"default", field.default_text == "true"}};
    case FieldKind::text:
      return {{"type", "string"}};
    case FieldKind::choice: {
      Json choice{{"enum", field.choices}};
      if (!field.default_text.empty()) choice["default"] = field.default_text;
      return choice;
    }
    case FieldKind::texts:
      return list_of({{"type", "string"}});
    case FieldKind::numbers:
      return {{"type", "array"},
              {"items", {{"type", "number"}}},
              {"minItems", field.count},
              {"maxItems", field.count}};
    case FieldKind::section:
      return object_of(field);
    case FieldKind::sections:
      return list_of(object_of(field));
    case FieldKind::named_sections:
      return {{"type", "object"}, {"additionalProperties", object_of(field)}};
    case FieldKind::either:
      return either_of(field);
    case FieldKind::free_lists:
      return {{"type", "object"},
              {"additionalProperties", {{"type", "array"}, {"minItems", 1}}},
              {"minProperties", 1}};
  }
  return Json::object();
}

Json schema_of(const FieldInfo& field) {
  Json schema{{"description", field.help}};
  const std::string unit = unit_of_key(field.key);
  if (!unit.empty()) schema["description"] = field.help + " [" + unit + "]";
  schema.update(kind_of(field));
  return schema;
}

std::string whole_schema(const std::string& title, const FieldInfo& info) {
  Json schema{{"$schema", "http://json-schema.org/draft-07/schema#"}, {"title", title}};
  schema.update(schema_of(info));
  return schema.dump(2) + "\n";
}

}  // namespace

FieldInfo whole_case_info() {
  FieldInfo info =
      case_section().info("", FieldKind::section, "A crown, what it is made of, and the bites it takes");
  info.fields.push_back(study_info());
  return info;
}

std::string case_schema() {
  return whole_schema("crownproof case file", whole_case_info());
}

std::string materials_schema() {
  FieldInfo file{.key = "", .kind = FieldKind::section, .help = "Materials by name, with their sources"};
  file.fields.push_back(materials_file_info());
  return whole_schema("crownproof materials file", file);
}

}  // namespace crownproof
