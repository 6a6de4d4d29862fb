// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_command.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/bench/bench_report.hpp"
#include "io/bench/bench_tables.hpp"
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

/// A file of the output folder.
struct NewFile {
  std::string name, text;
};

std::vector<NewFile> report_files(const BenchFindings& findings, const std::string& report) {
  return {{"report.txt", report},
          {"report.json", bench_json(findings)},
          {"groups.csv", bench_groups_csv(findings)},
          {"pairs.csv", bench_pairs_csv(findings)},
          {"methods.md", bench_methods_page(findings)},
          {"probability_plot.svg", bench_plot_svg(findings.groups)}};
}

/// All or, if one of them is there already, none.
void write_new(const std::filesystem::path& folder, const std::vector<NewFile>& files, bool force) {
  for (const NewFile& file : files)
    if (!force && std::filesystem::exists(folder / file.name))
      throw ResultsError((folder / file.name).string() +
                         " exists. Choose another folder with --output, or add --force to replace it.");
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error) throw ResultsError(explain_write_error(folder, error.value()));
  for (const NewFile& file : files) write_file(folder / file.name, file.text);
}

/// Each flaw that broke specimens of the group, fitted with the others as suspended.
std::vector<BenchFlaw> flaws_of(const BenchOptions& options, const BenchFile& bench,
                                const std::string& group) {
  std::set<std::string> names;
  for (const BenchRow& row : bench.rows) {
    if (row.group != group || row.end != BenchEnd::broken) continue;
    if (row.flaw.empty())
      throw UserError(
          row.place,
          "this specimen of the group broke from a flaw without a name, so the flaws cannot be carried "
          "over one by one. Name it, or leave out --flaw-populations.");
    names.insert(row.flaw);
  }
  for (const std::string& name : options.surface_flaws)
    if (!names.count(name))
      throw UserError(unknown_word("flaw", name, " in --surface-flaws", {names.begin(), names.end()}));
  std::vector<BenchFlaw> flaws;
  for (const std::string& name : names) {
    const bool at_surface = std::find(options.surface_flaws.begin(), options.surface_flaws.end(), name) !=
                            options.surface_flaws.end();
    const FlawKind kind = at_surface ? FlawKind::surface : FlawKind::volume;
    flaws.push_back({name, kind, group_named(analyse_flaw(bench, name, kind), group)});
  }
  return flaws;
}

/// The material asked for, as text and as it reads back.
struct MadeMaterial {
  std::string text;
  MaterialData data;
};

MadeMaterial make_material(const BenchOptions& options, const BenchFile& bench,
                           const std::vector<BenchGroupResult>& groups) {
  BenchMaterialRequest request{options.name, options.file.filename().string(), options.flaws, options.flaw,
                               options.min_specimens};
  if (options.flaw_populations)
    request.populations = flaws_of(options, bench, group_named(groups, options.group).group.name);
  const std::string text = bench_material_yaml(
      request, builtin_materials().get(options.like, Place{}), group_named(groups, options.group),
      options.across.empty() ? nullptr : &group_named(groups, options.across));
  MaterialsLibrary made;
  made.add_text(text, options.name + ".yaml");  // what is written can be read
  return {text, made.get(options.name, Place{})};
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
  command->add_option("--flaw", options.flaw,
                      "Flaw whose strength the material gets; specimens broken by others count as suspended");
  command->add_option("--flaws", options.flaws, "Where fracture starts: volume (default) or surface")
      ->transform(CLI::CheckedTransformer(
          std::map<std::string, FlawKind>{{"volume", FlawKind::volume}, {"surface", FlawKind::surface}}));
  command->add_flag("--flaw-populations", options.flaw_populations,
                    "The material gets every flaw of the column 'flaw' as a population of its own");
  command->add_option("--surface-flaws", options.surface_flaws, "Which of them lie at the surface (names)");
  command
      ->add_option("--min-specimens", options.min_specimens,
                   "Fewest specimens of a group that becomes a material (default 10, 3 at least)")
      ->check(CLI::Range(fewest_specimens_for_material, 1000));
  return command;
}

int bench_command(const BenchOptions& options) {
  const BenchFile bench = read_bench_file(options.file);
  const std::vector<BenchGroupResult> of_flaw = options.flaw.empty()
                                                    ? std::vector<BenchGroupResult>{}
                                                    : analyse_flaw(bench, options.flaw, options.flaws);
  BenchFindings findings = bench_findings(bench, analyse_bench(bench, options.flaws));
  findings.at_least = options.min_specimens;
  const std::vector<BenchGroupResult>& groups = options.flaw.empty() ? findings.groups : of_flaw;
  std::optional<MadeMaterial> material;
  if (!options.like.empty()) material = make_material(options, bench, groups);
  const std::string report = bench_report(findings);
  print(report);
  if (!options.across.empty()) {
    const LayerPlanes planes{.shear_divisor = material
                                                  ? penny_shear_divisor(elastic_constants(material->data))
                                                  : LayerPlanes{}.shear_divisor};
    print(angle_table_text(fit_of(groups, options.group).characteristic_MPa,
                           fit_of(groups, options.across).characteristic_MPa, planes));
  }
  if (options.output.empty()) {
    if (material) print(material->text);
    return exit_code::done;
  }
  std::vector<NewFile> files = report_files(findings, report);
  if (material) {
    files.push_back({options.name + ".yaml", material->text});
    for (const ChartFile& chart : charts_of(to_material(material->data)))
      files.push_back({chart.name, chart.content});
  }
  write_new(options.output, files, options.force);
  print(fmt::format("Written to {}\n", options.output.string()));
  return exit_code::done;
}

}  // namespace crownproof
