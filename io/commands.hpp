// SPDX-License-Identifier: AGPL-3.0-or-later
// What each command does, once the command line has been read. Each returns an exit code (io/exit_code.hpp)
// and throws the errors that guarded() knows.
#pragma once

#include <filesystem>
#include <string>

namespace crownproof {

struct CheckOptions {
  std::filesystem::path case_file;
  std::filesystem::path materials_folder;  ///< empty: the built-in materials
};
/// Reads a case, builds its shapes and prints what would be computed.
int check_command(const CheckOptions& options);

struct MaterialsOptions {
  std::string name;  ///< empty: list all
  std::filesystem::path materials_folder;
};
/// Lists the materials, or shows one with its sources.
int materials_command(const MaterialsOptions& options);

enum class SchemaOf { case_file, materials_file, reference, columns };
/// Prints the JSON Schema of case or materials files, or the reference page.
int schema_command(SchemaOf what);

/// Prints the version and build facts.
int version_command();

}  // namespace crownproof
