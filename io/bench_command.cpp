// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_command.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/bench/bench_report.hpp"
#include "io/charts/strength_charts.hpp"
#include "io/exit_code.hpp"
#include "io/machine/output_file.hpp"
#include "io/materials/materials_library.hpp"
#include "io/terminal.hpp"
#include "io/text/nearest_key.hpp"

namespace crownproof {
namespace {

const BenchGroupResult& group_named(const std::vector<BenchGroupResult>& groups, const std::string& name) {
  if (name.empty() && groups.size() == 1) return groups.front();
  std::vector<std::string> names;
  for (const BenchGroupResult& g : groups) {
    if (g.group.name == name) return g;
    names.push_back(g.group.name);
  }
  if (name.empty())
    throw UserError(
        fmt::format("The table has {} groups. Name the one that gives the strength with --group: {}.",
                    groups.size(), fmt::join(names, ", ")));
  throw UserError(unknown_word("group", name, "", names));
}

const WeibullFit& fit_of(const std::vector<BenchGroupResult>& groups, const std::string& name) {
  const BenchGroupResult& group = group_named(groups, name);
  if (!group.fit)
    throw UserError(fmt::format("Group '{}' has no strength: {}", group.group.name, group.why_not));
  return *group.fit;
}

/// Of the material that was made: against the angle of the layers, and against time.
std::vector<ChartFile> charts_of(const Material& material) {
  std::vector<ChartFile> charts = angle_charts(material.name, *material.strength,
                                               {.shear_divisor = penny_shear_divisor(material.elastic)});
  for (ChartFile& chart : time_charts(material.name, *material.strength, {}))
    charts.push_back(std::move(chart));
  return charts;
}

void write_new(const std::filesystem::path& path, const std::string& text, bool force) {
  if (!force && std::filesystem::exists(path))
    throw ResultsError(path.string() +
                       " exists. Choose another folder with --output, or add --force to replace it.");
  write_file(path, text);
}

}  // namespace

CLI::App* add_bench(CLI::App& app, BenchOptions& options) {
  CLI::App* command = app.add_subcommand(
      "bench",
      "Example: crownproof bench bars.csv --output bars --like zirconia_3y_milled --name my_zirconia\n"
      "Bench tests (CSV): Weibull fit with suspended specimens, comparison of groups, plot, material file");
  command->add_option("FILE", options.file, "Table of specimens (CSV)")->required();
  command->add_option("--output", options.output, "Folder for the plot and the material file");
  command->add_flag("--force", options.force, "Replace existing files");
  command->add_option("--like", options.like,
                      "Material whose stiffness and fatigue the material file takes over");
  command->add_option("--name", options.name, "Name of the material in the file");
  command->add_option("--group", options.group,
                      "Group that gives the strength (of layered material: in the layers)");
  command->add_option("--across", options.across, "Group that gives the strength across the layers");
  return command;
}

int bench_command(const BenchOptions& options) {
  const BenchFile bench = read_bench_file(options.file);
  const std::vector<BenchGroupResult> groups = analyse_bench(bench);
  std::string material;
  MaterialsLibrary made;
  LayerPlanes planes;
  if (!options.like.empty()) {
    const MaterialsLibrary library = builtin_materials();
    material = bench_material_yaml(options.name, library.get(options.like, Place{}),
                                   options.file.filename().string(), group_named(groups, options.group),
                                   options.across.empty() ? nullptr : &group_named(groups, options.across));
    made.add_text(material, options.name + ".yaml");  // what is written can be read
    planes.shear_divisor = penny_shear_divisor(elastic_constants(made.get(options.name, Place{})));
  }
  print(bench_report(bench, groups));
  if (!options.across.empty())
    print(angle_table_text(fit_of(groups, options.group).characteristic_MPa,
                           fit_of(groups, options.across).characteristic_MPa, planes));
  if (options.output.empty()) {
    if (!material.empty()) print(material);
    return exit_code::done;
  }
  std::error_code error;
  std::filesystem::create_directories(options.output, error);
  if (error) throw ResultsError(explain_write_error(options.output, error.value()));
  write_new(options.output / "probability_plot.svg", bench_plot_svg(groups), options.force);
  if (!material.empty()) {
    write_new(options.output / (options.name + ".yaml"), material, options.force);
    for (const ChartFile& chart : charts_of(to_material(made.get(options.name, Place{}))))
      write_new(options.output / chart.name, chart.content, options.force);
  }
  print(fmt::format("Written to {}\n", options.output.string()));
  return exit_code::done;
}

}  // namespace crownproof
