// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/record/manifest.hpp"

#include <chrono>
#include <cmath>
#include <ctime>
#include <thread>

#include <fmt/chrono.h>
#include <sys/utsname.h>
#include <nlohmann/json.hpp>

#include "io/machine/output_file.hpp"
#include "io/machine/sha256.hpp"
#include "io/record/run_record.hpp"
#include "io/text/version.hpp"
#include "solver/elasticity/solve_report.hpp"
#include "solver/model/model.hpp"
#include "solver/result/report.hpp"

namespace crownproof {
namespace {

using Json = nlohmann::ordered_json;

Json program_facts() {
  Json facts = Json::object();
  for (const auto& [name, value] : build_facts()) facts[name] = value;
  return facts;
}

/// Null if the file went away meanwhile: no reason to lose the results.
Json digest(const InputFile& input) {
  if (!input.sha256.empty()) return input.sha256;
  try {
    return sha256_of_file(input.path);
  } catch (const ResultsError&) {
    return nullptr;
  }
}

Json inputs(const RunRecord& run) {
  Json list = Json::array();
  for (const InputFile& input : run.inputs)
    list.push_back({{"role", input.role}, {"path", input.path.string()}, {"sha256", digest(input)}});
  return list;
}

/// Kind of machine, without its name or user.
Json machine(int threads) {
  utsname system{};
  const bool known = ::uname(&system) == 0;
  return {
      {"system", known ? fmt::format("{} {} {}", system.sysname, system.release, system.machine) : "unknown"},
      {"processors", std::thread::hardware_concurrency()},
      {"threads", threads}};
}

double rounded_s(double seconds) {
  return std::round(1000 * seconds) / 1000;
}

Json seconds(const std::vector<StageTime>& times) {
  Json json = Json::object();
  for (const StageTime& time : times) json[time.stage] = rounded_s(time.seconds);
  return json;
}

/// Bad UTF-8 is replaced, not thrown.
std::string text_of(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

/// Each column of summary.csv with what it means.
Json meanings(const std::vector<std::pair<std::string, std::string>>& columns) {
  Json json = Json::object();
  for (const auto& [name, meaning] : columns) json[name] = meaning;
  return json;
}

Json computed(const VariantRecord& variant) {
  Json regions = Json::object(), levels = Json::array(), solves = Json::array();
  for (const RegionQuality& r : variant.report.quality.regions) regions[r.region] = r.cells;
  for (const SolverLevel& level : variant.report.levels)
    levels.push_back({{"name", level.name}, {"unknowns", level.unknowns}, {"nonzeros", level.nonzeros}});
  for (const BiteReport& bite : variant.report.bites)
    solves.push_back({{"bite", bite.name},
                      {"iterations", bite.solve.iterations},
                      {"relative_residual", bite.solve.relative_residual}});
  return {{"label", label_of(variant)},
          {"nodes", variant.report.quality.nodes},
          {"cells", regions},
          {"solver_tolerance", variant.model->solver_tolerance},
          {"solver_levels", levels},
          {"solves", solves},
          {"wall_times_s", seconds(variant.timings)},
          {"peak_memory_GiB_by_pass", variant.pass_memory_GiB}};
}

}  // namespace

std::string manifest_json(const RunRecord& run, std::span<const VariantRecord> variants,
                          const WrittenFacts& written) {
  Json list = Json::array();
  for (const VariantRecord& variant : variants) list.push_back(computed(variant));
  const Json options = Json::parse(run.options_json, nullptr, false);
  const auto now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  const Json all = {{"program", "crownproof"},
                    {"caution", caution()},
                    {"title", run.title},
                    {"finished_utc", fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(now))},
                    {"command", run.command},
                    {"built_from", program_facts()},
                    {"inputs", inputs(run)},
                    {"options_in_force", options.is_discarded() ? Json(nullptr) : options},
                    {"machine", machine(run.threads)},
                    {"variants", list},
                    {"writing_wall_times_s", seconds(written.writing)},
                    {"warnings", written.warnings},
                    {"summary_columns", meanings(written.columns)},
                    {"files", written.files},
                    {"pictures_waiting", written.waiting}};
  return text_of(all);
}

std::optional<ManifestFiles> files_of(const std::string& manifest) {
  const Json json = Json::parse(manifest, nullptr, false);
  if (!json.is_object() || json.value("program", Json()) != "crownproof") return std::nullopt;
  const auto list = [&](const char* key) {
    std::vector<std::string> texts;
    for (const Json& text : json.value(key, Json::array()))
      if (text.is_string()) texts.push_back(text.get<std::string>());
    return texts;
  };
  return ManifestFiles{list("files"), list("pictures_waiting"), list("warnings")};
}

std::string with_files(const std::string& manifest, const ManifestFiles& files, double pictures_s) {
  Json json = Json::parse(manifest, nullptr, false);
  json["files"] = files.files;
  json["pictures_waiting"] = files.waiting;
  json["warnings"] = files.warnings;
  const double before = json["writing_wall_times_s"].value("pictures", 0.0);
  json["writing_wall_times_s"]["pictures"] = rounded_s(before + pictures_s);
  return text_of(json);
}

}  // namespace crownproof
