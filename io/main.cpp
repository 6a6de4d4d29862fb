// SPDX-License-Identifier: AGPL-3.0-or-later
// The command line: options into plain structs, commands in io/commands.hpp.
#include <string>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <CLI/CLI.hpp>

#include "io/bench_command.hpp"
#include "io/commands.hpp"
#include "io/completion_command.hpp"
#include "io/draw_command.hpp"
#include "io/exit_code.hpp"
#include "io/run_command.hpp"
#include "io/terminal.hpp"
#include "io/text/nearest_key.hpp"
#include "io/text/version.hpp"

namespace crownproof {
namespace {

constexpr const char* program_help =
    "Example: crownproof run cases/lower_first_molar_printed_thickness.yaml\n\n"
    "Tells whether a single-material ceramic crown survives the bite: from a case file to stress, verdict, "
    "tables and\n"
    "pictures. First steps: 'crownproof check CASE' shows what a case would compute, 'crownproof materials' "
    "what crowns\n"
    "can be made of.\n";

constexpr const char* exit_codes_help =
    "Exit codes: 0 done; 1 internal error, too little memory, or no pictures (draw); 2 command line,\n"
    "input or output; 3 shape or mesh; 4 no convergence; 5 a bite is not below its limits and\n"
    "--require-below was given; 130 interrupted.";

void add_materials_folder(CLI::App& command, std::filesystem::path& folder) {
  command.add_option("--materials-dir", folder,
                     "Read the materials of this folder instead of the built-in ones");
}

/// Folders of the drawing commands.
struct DrawChoice {
  std::filesystem::path results, scenes, into;
};

/// The command line, and the command it chose.
struct Choice {
  RunOptions run;
  CheckOptions check;
  MaterialsOptions materials;
  bool schema_materials = false, schema_reference = false, schema_columns = false, show_version = false;
  BenchOptions bench;
  DrawChoice draw;
  std::string shell;  ///< to complete the command line in
};

CLI::App* add_run(CLI::App& app, RunOptions& options) {
  CLI::App* command = app.add_subcommand(
      "run",
      "Example: crownproof run case.yaml --output results/case\nComputes a case and writes its results");
  command->add_option("CASE", options.case_file, "Case file (YAML)")->required();
  command->add_option("--output", options.output, "Results folder; without it results/<name of the case>");
  command->add_flag("--force", options.force, "Replace the results that are in the folder");
  command->add_flag("--quiet", options.quiet, "No status line and no summary");
  command->add_flag("--json", options.json, "Print the summary as JSON");
  command->add_option("--threads", options.threads, "Threads to use; without it all the machine has")
      ->check(CLI::Range(1, 256));
  command->add_flag("--require-below", options.require_below,
                    "Exit with code 5 unless every bite is below its limits");
  add_materials_folder(*command, options.materials_folder);
  return command;
}

CLI::App* add_check(CLI::App& app, CheckOptions& options) {
  CLI::App* command = app.add_subcommand("check",
                                         "Example: crownproof check case.yaml\nReads a case, builds its "
                                         "shapes and prints what would be computed");
  command->add_option("CASE", options.case_file, "Case file (YAML)")->required();
  add_materials_folder(*command, options.materials_folder);
  return command;
}

CLI::App* add_materials(CLI::App& app, MaterialsOptions& options) {
  CLI::App* command = app.add_subcommand("materials",
                                         "Example: crownproof materials zirconia_3y_printed\nLists the "
                                         "materials, or shows one with its sources");
  command->add_option("NAME", options.name, "Material to show");
  add_materials_folder(*command, options.materials_folder);
  return command;
}

CLI::App* add_schema(CLI::App& app, Choice& choice) {
  CLI::App* command = app.add_subcommand(
      "schema",
      "Example: crownproof schema > case.schema.json\nPrints the JSON Schema of case files, for editors");
  CLI::Option* materials =
      command->add_flag("--materials", choice.schema_materials, "The schema of materials files instead");
  command
      ->add_flag("--reference", choice.schema_reference,
                 "The reference page of case files (Markdown) instead")
      ->excludes(materials);
  command->add_flag("--columns", choice.schema_columns, "The columns of summary.csv (Markdown) instead")
      ->excludes(materials);
  return command;
}

CLI::App* add_draw(CLI::App& app, std::filesystem::path& folder) {
  CLI::App* command = app.add_subcommand(
      "draw", "Example: crownproof draw results/case\nDraws the pictures that a run could not draw");
  command->add_option("FOLDER", folder, "Results folder")->required();
  return command;
}

CLI::App* add_completion(CLI::App& app, std::string& shell) {
  CLI::App* command = app.add_subcommand(
      "completion",
      "Example: crownproof completion bash > ~/.local/share/bash-completion/completions/crownproof\nPrints a "
      "script that completes commands, options, files and materials in your shell");
  command->add_option("SHELL", shell, "bash or zsh")->required()->check(CLI::IsMember({"bash", "zsh"}));
  return command;
}

/// What a run starts by itself; help does not list it.
CLI::App* add_draw_scenes(CLI::App& app, DrawChoice& choice) {
  CLI::App* command = app.add_subcommand(draw_scenes_name, "Draws a file of scenes")->group("");
  command->add_option("SCENES", choice.scenes)->required();
  command->add_option("FOLDER", choice.into)->required();
  return command;
}

SchemaOf schema_of(const Choice& choice) {
  if (choice.schema_reference) return SchemaOf::reference;
  if (choice.schema_columns) return SchemaOf::columns;
  return choice.schema_materials ? SchemaOf::materials_file : SchemaOf::case_file;
}

/// CLI11 has error codes of its own (100 to 127); ours are documented.
int parse_failed(const CLI::App& app, const CLI::ParseError& error) {
  return app.exit(error) == 0 ? exit_code::done : exit_code::usage;
}

/// A first word that is no command: a case file that lacks its command, or a slip of the pen. Empty if
/// neither.
std::string command_meant(const CLI::App& app, int argc, const char* const* argv) {
  if (argc < 2 || argv[1][0] == '-') return "";
  const std::string word = argv[1];
  std::vector<std::string> commands;
  for (const CLI::App* command : app.get_subcommands({})) {
    if (command->get_name() == word) return "";
    if (!command->get_group().empty()) commands.push_back(command->get_name());
  }
  for (const char* const ending : {".yaml", ".yml"})
    if (word.ends_with(ending))
      return fmt::format("write 'crownproof run {0}' or 'crownproof check {0}'.", word);
  if (word.ends_with(".csv")) return fmt::format("write 'crownproof bench {}'.", word);
  return unknown_word("command", word, "", commands);
}

/// The command line as typed, for the manifest.
std::string typed(int argc, const char* const* argv) {
  return fmt::format("{}", fmt::join(argv, argv + argc, " "));
}

int run_program(int argc, const char* const* argv) {
  Choice choice;
  choice.run.command = typed(argc, argv);
  CLI::App app{program_help, "crownproof"};
  app.footer(fmt::format("\n{}\n\n{}", exit_codes_help, caution()));
  app.add_flag("--version", choice.show_version, "Version, commit, compiler and libraries");
  const CLI::App* run = add_run(app, choice.run);
  const CLI::App* check = add_check(app, choice.check);
  const CLI::App* materials = add_materials(app, choice.materials);
  const CLI::App* bench = add_bench(app, choice.bench);
  const CLI::App* draw = add_draw(app, choice.draw.results);
  const CLI::App* draw_scenes = add_draw_scenes(app, choice.draw);
  const CLI::App* schema = add_schema(app, choice);
  const CLI::App* completion = add_completion(app, choice.shell);
  app.require_subcommand(0, 1);
  if (const std::string meant = command_meant(app, argc, argv); !meant.empty()) {
    tell(fmt::format("crownproof: {}\n", meant));
    return exit_code::usage;
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return parse_failed(app, error);
  }
  return guarded([&] {
    if (choice.show_version) return version_command();
    if (*run) return run_command(choice.run);
    if (*check) return check_command(choice.check);
    if (*bench) return bench_command(choice.bench);
    if (*draw) return draw_command(choice.draw.results);
    if (*draw_scenes) return draw_scenes_command(choice.draw.scenes, choice.draw.into);
    if (*materials) return materials_command(choice.materials);
    if (*completion) return completion_command(app, choice.shell == "zsh" ? Shell::zsh : Shell::bash);
    if (*schema) return schema_command(schema_of(choice));
    tell(app.help());
    return exit_code::usage;
  });
}

}  // namespace
}  // namespace crownproof

int main(int argc, char** argv) {
  crownproof::fill_closed_streams();
  return crownproof::run_program(argc, argv);
}
