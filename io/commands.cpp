// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/commands.hpp"

#include "io/case/case.hpp"
#include "io/case/case_reference.hpp"
#include "io/case/check_loads.hpp"
#include "io/case/describe_case.hpp"
#include "io/case/schema.hpp"
#include "io/exit_code.hpp"
#include "io/materials/describe_material.hpp"
#include "io/tables/column.hpp"
#include "io/terminal.hpp"
#include "io/text/version.hpp"
#include "solver/model/model.hpp"

namespace crownproof {
namespace {

MaterialsLibrary library_of(const std::filesystem::path& folder) {
  return folder.empty() ? builtin_materials() : materials_of_folder(folder);
}

}  // namespace

int check_command(const CheckOptions& options) {
  const Case whole = read_case(options.case_file, library_of(options.materials_folder));
  std::string text = whole.title + "\n";
  check_all_loads(whole);
  const CaseFile& first = whole.variants.front().case_file;
  text += describe_model(build_model(first, whole.library), first, whole.library);
  if (whole.variants.size() > 1) text += describe_variants(whole);
  print(text);
  return exit_code::done;
}

int materials_command(const MaterialsOptions& options) {
  const MaterialsLibrary library = library_of(options.materials_folder);
  print(options.name.empty() ? list_materials(library) : show_material(library.get(options.name, Place{})));
  return exit_code::done;
}

int schema_command(SchemaOf what) {
  switch (what) {
    case SchemaOf::case_file:
      print(case_schema());
      break;
    case SchemaOf::materials_file:
      print(materials_schema());
      break;
    case SchemaOf::reference:
      print(case_reference());
      break;
    case SchemaOf::columns:
      print(summary_columns_page());
      break;
  }
  return exit_code::done;
}

int version_command() {
  std::string text = "crownproof " + version() + "\n";
  for (const auto& [name, value] : build_facts())
    if (name != "version") text += fmt::format("  {:<14} {}\n", name, value);
  print(text);
  return exit_code::done;
}

}  // namespace crownproof
