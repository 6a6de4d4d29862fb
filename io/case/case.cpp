// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/case/case.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "io/case/case_fields.hpp"
#include "io/case/study.hpp"
#include "io/machine/sha256.hpp"
#include "io/text/file_name.hpp"
#include "io/text/nearest_key.hpp"
#include "io/text/text_encoding.hpp"
#include "solver/bench/bench_specimen.hpp"

namespace crownproof {
namespace {

void check_format(const YamlNode& root, const std::string& file) {
  const YamlNode* format = root.find("crownproof");
  if (root.kind == YamlKind::map && !format && root.find("materials") && !root.find("bites"))
    throw UserError(Place{file},
                    "this looks like a materials file, not a case. Name it under 'materials_files' of "
                    "a case.");
  if (format && format->kind == YamlKind::scalar && format->text != std::to_string(case_format))
    throw UserError(format->place,
                    fmt::format("this program reads format {} of the case file, not '{}'. Write "
                                "'crownproof: {}'.",
                                case_format, shortened(format->text), case_format));
}

/// Bites whose names become one file name would overwrite each other's pictures and fields.
void check_bite_names(const YamlNode& root) {
  const YamlNode* const bites = root.find("bites");
  if (bites == nullptr) return;
  std::map<std::string, const YamlNode*> seen;
  for (const YamlNode& bite : bites->items) {
    const YamlNode* const name = bite.find("name");
    if (name == nullptr) continue;
    const std::string file = file_safe(name->text, "");
    if (file.empty()) continue;  // named by its number
    const auto [other, is_new] = seen.try_emplace(file, name);
    if (!is_new)
      throw UserError(name->place,
                      fmt::format("the bites '{}' and '{}' (line {}) would get the same file name '{}'. Give "
                                  "them names that differ in letters or digits.",
                                  other->second->text, name->text, other->second->place.line, other->first));
  }
}

/// A value expected of a variant or bite that is not there would never be compared.
void check_expected(const std::vector<CaseVariant>& variants) {
  std::vector<std::string> labels, bites;
  for (const CaseVariant& variant : variants) labels.push_back(variant.label);
  const CaseFile& first = variants.front().case_file;
  for (const BiteCase& bite : first.bites) bites.push_back(bite.name);
  const YamlNode* const node = variants.front().tree.find("expected");
  const auto known = [](const std::string& word, const std::vector<std::string>& list) {
    return std::find(list.begin(), list.end(), word) != list.end();
  };
  for (std::size_t i = 0; i < first.expected.size(); ++i) {
    const Place& place = node->items[i].place;
    const auto& [variant, bite] = std::tie(first.expected[i].variant, first.expected[i].bite);
    if (!variant.empty() && variants.size() == 1)
      throw UserError(place,
                      fmt::format("unknown variant '{}': this case is no study, so leave 'variant' out.",
                                  shortened(variant)));
    if (!variant.empty() && !known(variant, labels))
      throw UserError(place, unknown_word("variant", variant, "", labels));
    if (!bites.empty() && !known(bite, bites))  // a specimen's test has the name of its kind
      throw UserError(place, unknown_word("bite", bite, "", bites));
  }
}

/// Names in the case must be known before anything is built.
void check_materials(const CaseFile& case_file, const MaterialsLibrary& library) {
  for (const Placed<MaterialChoice>* choice : materials_named(case_file)) material_of(*choice, library);
}

std::filesystem::path beside(const std::filesystem::path& case_file, const std::string& name) {
  return (case_file.parent_path() / name).lexically_normal();
}

/// Adds the user's materials files of the first variant (all variants share them).
void add_materials_files(Case& whole, const CaseFile& first) {
  for (const Placed<std::string>& name : first.materials_files) {
    const std::filesystem::path file = beside(whole.file, name.value);
    std::error_code ignored;
    if (!std::filesystem::is_regular_file(file, ignored))
      throw UserError(name.place,
                      fmt::format("there is no materials file '{}'. The name is relative to the folder "
                                  "of the case file.",
                                  file.string()));
    whole.library.add_file(file);
    whole.materials_files.push_back(file);
  }
}

}  // namespace

std::vector<const Placed<MaterialChoice>*> materials_named(const CaseFile& c) {
  std::vector<const Placed<MaterialChoice>*> named;
  for (const auto* choice : {&c.materials.crown, &c.materials.cement, &c.materials.die})
    if (*choice) named.push_back(&**choice);
  if (c.specimen && c.specimen->value.material) named.push_back(&*c.specimen->value.material);
  return named;
}

const MaterialData& material_of(const Placed<MaterialChoice>& choice, const MaterialsLibrary& library) {
  if (const auto* written_out = std::get_if<MaterialData>(&choice.value)) return *written_out;
  return library.get(std::get<std::string>(choice.value), choice.place);
}

Case read_case(const std::filesystem::path& file, const MaterialsLibrary& library) {
  return parse_case(read_text_file(file), file, library);
}

Case parse_case(const std::string& text, const std::filesystem::path& file, const MaterialsLibrary& library) {
  const YamlNode root = parse_yaml(text, file.string());
  check_format(root, file.string());
  Case whole{.file = file,
             .sha256 = sha256(text),
             .title = {},
             .materials_files = {},
             .library = library,
             .variants = {}};
  for (const CaseTree& tree : expand_study(root))
    whole.variants.push_back(
        {tree.label(), tree.varied, read_section(case_section(), tree.root, ""), tree.root});
  for (const CaseVariant& variant : whole.variants) check_bite_names(variant.tree);
  check_expected(whole.variants);
  const CaseFile& first = whole.variants.front().case_file;
  add_materials_files(whole, first);
  for (const CaseVariant& variant : whole.variants) check_materials(variant.case_file, whole.library);
  whole.title = first.title.empty() ? file.stem().string() : first.title;
  return whole;
}

}  // namespace crownproof
