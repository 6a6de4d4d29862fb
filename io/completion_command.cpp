// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/completion_command.hpp"

#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <CLI/CLI.hpp>

#include "io/exit_code.hpp"
#include "io/terminal.hpp"

namespace crownproof {
namespace {

/// What may stand at a place of the command line.
enum class Place { anything, case_file, table, folder, material, shell };

/// Told by the names that the declarations give their values: positionals in capitals, options in small
/// letters.
Place place_of(const std::string& name) {
  if (name == "CASE") return Place::case_file;
  if (name == "FILE") return Place::table;
  if (name == "FOLDER" || name == "--output" || name == "--materials-dir") return Place::folder;
  if (name == "NAME" || name == "--like") return Place::material;
  if (name == "SHELL") return Place::shell;
  return Place::anything;
}

struct OptionWords {
  std::string name, meaning;
  bool takes_value = false;
};

struct CommandWords {
  std::string name, meaning;
  std::vector<OptionWords> options;
  Place positional = Place::anything;
};

/// Help begins with an example on a line of its own.
std::string without_example(const std::string& description) {
  const std::size_t end = description.find('\n');
  return end == std::string::npos ? description : description.substr(end + 1);
}

CommandWords words_of(const CLI::App& command) {
  CommandWords words{command.get_name(), without_example(command.get_description()), {}};
  for (const CLI::Option* option : command.get_options()) {
    if (option->get_positional())
      words.positional = place_of(option->get_name(true));
    else
      for (const std::string& name : option->get_lnames())
        words.options.push_back(
            {"--" + name, option->get_description(), option->get_items_expected_max() > 0});
  }
  return words;
}

std::vector<CommandWords> commands_of(const CLI::App& app) {
  std::vector<CommandWords> commands;
  for (const CLI::App* command : app.get_subcommands({}))
    if (!command->get_group().empty()) commands.push_back(words_of(*command));
  return commands;
}

/// The names in the list that the program prints.
constexpr const char* material_names =
    "crownproof materials 2>/dev/null | sed -n 's/^  \\([a-z0-9_]*\\) .*/\\1/p'";

std::string bash_values(Place place) {
  switch (place) {
    case Place::case_file:
      return "_crownproof_files yaml yml";
    case Place::table:
      return "_crownproof_files csv tsv txt";
    case Place::folder:
      return "_crownproof_files";
    case Place::material:
      return fmt::format("COMPREPLY=($(compgen -W \"$({})\" -- \"$word\"))", material_names);
    case Place::shell:
      return "COMPREPLY=($(compgen -W 'bash zsh' -- \"$word\"))";
    case Place::anything:
      break;
  }
  return "COMPREPLY=()";
}

std::string bash_case(const CommandWords& command) {
  std::vector<std::string> names;
  std::string values;
  for (const OptionWords& option : command.options) {
    names.push_back(option.name);
    if (option.takes_value)
      values += fmt::format("        {}) {}; return ;;\n", option.name, bash_values(place_of(option.name)));
  }
  if (!values.empty()) values = "      case $before in\n" + values + "      esac\n";
  return fmt::format(
      "    {})\n{}      case $word in\n        -*) COMPREPLY=($(compgen -W '{}' -- \"$word\")) ;;\n"
      "        *) {} ;;\n      esac ;;\n",
      command.name, values, fmt::join(names, " "), bash_values(command.positional));
}

std::string bash_script(const std::vector<CommandWords>& commands) {
  std::vector<std::string> names;
  std::string cases;
  for (const CommandWords& command : commands) {
    names.push_back(command.name);
    cases += bash_case(command);
  }
  return fmt::format(
      "# bash completion, made by 'crownproof completion bash'\n"
      "# Files with one of the endings, and folders; the cursor stays behind a folder.\n"
      "_crownproof_files() {{\n"
      "  local ending\n"
      "  compopt -o filenames 2>/dev/null\n"
      "  mapfile -t COMPREPLY < <(compgen -d -- \"$word\"; for ending; do compgen -f -X \"!*.$ending\" -- "
      "\"$word\"; done)\n"
      "}}\n"
      "_crownproof() {{\n"
      "  local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD-1]}}\n"
      "  COMPREPLY=()\n"
      "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
      "    COMPREPLY=($(compgen -W '{} --help --version' -- \"$word\"))\n"
      "    return\n"
      "  fi\n"
      "  case ${{COMP_WORDS[1]}} in\n{}  esac\n"
      "}}\n"
      "complete -F _crownproof crownproof\n",
      fmt::join(names, " "), cases);
}

/// Text inside zsh's [...] and single quotes.
std::string zsh_text(const std::string& text) {
  std::string escaped;
  for (const char c : text) {
    if (c == '[' || c == ']' || c == ':' || c == '\\') escaped += '\\';
    if (c == '\'')
      escaped += "'\\''";
    else
      escaped += c == '\n' ? ' ' : c;
  }
  return escaped;
}

std::string zsh_values(Place place) {
  switch (place) {
    case Place::case_file:
      return "case:_files -g \"*.(yaml|yml)\"";
    case Place::table:
      return "table:_files -g \"*.(csv|tsv|txt)\"";
    case Place::folder:
      return "folder:_files -/";
    case Place::material:
      return "material:_crownproof_materials";
    case Place::shell:
      return "shell:(bash zsh)";
    case Place::anything:
      break;
  }
  return "value: ";
}

std::string zsh_case(const CommandWords& command) {
  std::string text = fmt::format("        {}) _arguments", command.name);
  for (const OptionWords& option : command.options)
    text += fmt::format(" \\\n          '{}[{}]{}'", option.name, zsh_text(option.meaning),
                        option.takes_value ? ":" + zsh_values(place_of(option.name)) : std::string());
  if (command.positional != Place::anything)
    text += fmt::format(" \\\n          '1:{}'", zsh_values(command.positional));
  return text + " ;;\n";
}

std::string zsh_script(const std::vector<CommandWords>& commands) {
  std::string names, cases;
  for (const CommandWords& command : commands) {
    names += fmt::format("    '{}:{}'\n", command.name, zsh_text(command.meaning));
    cases += zsh_case(command);
  }
  return fmt::format(
      "#compdef crownproof\n"
      "# zsh completion, made by 'crownproof completion zsh'\n"
      "_crownproof_materials() {{\n"
      "  local -a names\n"
      "  names=(${{(f)\"$({})\"}})\n"
      "  compadd -a names\n"
      "}}\n"
      "_crownproof() {{\n"
      "  local -a commands\n"
      "  commands=(\n{}  )\n"
      "  local state line\n"
      "  _arguments -C '--version[Version]' '--help[Help]' '1:command:->command' '*::word:->words'\n"
      "  case $state in\n"
      "    command) _describe command commands ;;\n"
      "    words)\n"
      "      case $line[1] in\n{}      esac ;;\n"
      "  esac\n"
      "}}\n"
      "_crownproof \"$@\"\n",
      material_names, names, cases);
}

}  // namespace

std::string completion_script(const CLI::App& app, Shell shell) {
  const std::vector<CommandWords> commands = commands_of(app);
  return shell == Shell::bash ? bash_script(commands) : zsh_script(commands);
}

int completion_command(const CLI::App& app, Shell shell) {
  print(completion_script(app, shell));
  return exit_code::done;
}

}  // namespace crownproof
