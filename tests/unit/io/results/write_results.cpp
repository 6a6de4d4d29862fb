// SPDX-License-Identifier: AGPL-3.0-or-later

#include <algorithm>
#include <cmath>
#include <fstream>
#include <memory>
#include <set>
#include <sstream>

#include <fmt/format.h>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "io/machine/output_file.hpp"
#include "io/machine/sha256.hpp"
#include "io/record/run_record.hpp"
#include "io/results/write_results.hpp"
#include "io/tables/tables.hpp"
#include "io/text/version.hpp"
#include "io/words/summary.hpp"
#include "mesh/tet_mesh.hpp"
#include "solver/model/model.hpp"
#include "solver/strength/zone_peak.hpp"
#include "tests/support/file_size_limit.hpp"
#include "tests/support/sample_case.hpp"
#include "tests/support/scratch_folder.hpp"
#include "tests/support/vtu_reader.hpp"

using namespace crownproof;
namespace fs = std::filesystem;
using Json = nlohmann::json;

namespace {

const SampleCase& sample() {
  static const SampleCase once = sample_case(2);
  return once;
}

VariantRecord plain_run() {
  return {.model = std::make_shared<const Model>(sample().model),
          .report = sample().result.report,
          .asked_thickness_mm = 1.5};
}

/// The fields of every variant are those of the sample.
WrittenResults write_results(const RunRecord& run, const std::vector<VariantRecord>& variants,
                             const fs::path& folder, bool force) {
  ResultsWriter writer(folder, force);
  for (const VariantRecord& variant : variants) writer.add(variant, sample().result.fields);
  return writer.finish(run, [](const fs::path& scenes, const fs::path& into) {
    return draw_pictures(scenes, into, [](const std::string&) {});
  });
}

std::vector<VariantRecord> study() {
  std::vector<VariantRecord> variants;
  for (const char* value : {"1.0", "1.5"})
    variants.push_back({.label = fmt::format("thickness {} mm, \"thin\"", value),
                        .varied = {{"crown.occlusal_thickness_mm", value}},
                        .model = std::make_shared<const Model>(sample().model),
                        .report = sample().result.report,
                        .asked_thickness_mm = 1.5});
  return variants;
}

std::string content(const fs::path& path) {
  std::ifstream stream(path);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// A reader of RFC 4180 written for this test.
std::vector<std::vector<std::string>> rows_of(const std::string& csv) {
  std::vector<std::vector<std::string>> rows{{""}};
  bool quoted = false;
  for (std::size_t i = 0; i < csv.size(); ++i) {
    std::string& cell = rows.back().back();
    if (quoted) {
      if (csv[i] != '"')
        cell += csv[i];
      else if (i + 1 < csv.size() && csv[i + 1] == '"')
        cell += csv[++i];
      else
        quoted = false;
    } else if (csv[i] == '"')
      quoted = true;
    else if (csv[i] == ',')
      rows.back().emplace_back();
    else if (csv[i] == '\n')
      rows.push_back({""});
    else if (csv[i] != '\r')
      cell += csv[i];
  }
  rows.pop_back();
  return rows;
}

int lines_of(const std::string& text) {
  return static_cast<int>(std::count(text.begin(), text.end(), '\n'));
}

std::size_t longest_line(const std::string& text) {
  std::istringstream stream(text);
  std::size_t longest = 0;
  for (std::string line; std::getline(stream, line);) longest = std::max(longest, line.size());
  return longest;
}

}  // namespace

TEST_CASE("the allowed probability of fracture stands in every table", "[write_results]") {
  std::vector<VariantRecord> variants = study();
  FractureVerdict limit{.allowed = 0.02, .years = 10, .probability = 0.3, .bounds = Interval{0.1, 0.6}};
  limit.verdict = Verdict::above;
  limit.load_factor = 0.75;
  limit.decides = true;
  for (VariantRecord& v : variants) {
    Model asked = *v.model;
    asked.requirement.allowed_fracture_probability = 0.02;
    asked.requirement.chewing.years = 10;
    v.model = std::make_shared<const Model>(asked);
    v.report.bites[0].fracture_verdict = limit;
  }
  const auto rows = rows_of(summary_csv(variants));
  const auto column = [&](const std::string& name) {
    return std::find(rows[0].begin(), rows[0].end(), name) - rows[0].begin();
  };
  CHECK(rows[1][column("allowed_fracture_probability")] == "0.02");
  CHECK(rows[1][column("bite_fracture_verdict")] == "above");
  CHECK(rows[1][column("bite_decided_by")] == "fracture_probability");
  CHECK(rows.back()[column("bite_decided_by")].empty());
  const Json bites = Json::parse(summary_json("t", variants))["variants"][0]["bites"];
  CHECK(bites[0]["fracture_limit"]["load_factor_at_allowed"] == 0.75);
  CHECK(bites[0]["fracture_limit"]["decides"] == true);
  CHECK(bites[1]["fracture_limit"].is_null());
  const std::string table = terminal_summary("t", variants, {}, false);
  CHECK_THAT(table,
             Catch::Contains("Allowed: at most 2 % may break within 10 years.") && Catch::Contains("*\n"));
  CHECK(longest_line(table) <= 80);
  CHECK_THAT(terminal_summary("t", study(), {}, false), !Catch::Contains("Allowed:"));
}

TEST_CASE("A material that allows no probability hides no limit of the others", "[write_results]") {
  std::vector<VariantRecord> variants = study();
  Model asked = *variants.back().model;
  asked.requirement.allowed_fracture_probability = 0.02;
  variants.back().model = std::make_shared<const Model>(asked);
  const std::string table = terminal_summary("t", variants, {}, false);
  CHECK_THAT(table, Catch::Contains("Allowed: at most 2 % may break") &&
                        Catch::Contains("the material allows no probability") &&
                        !Catch::Contains("are varied"));
}

TEST_CASE("A band wider than its value is told as that", "[write_results]") {
  std::vector<VariantRecord> one{study().front()};
  one.front().report.bites[0].peaks[0].relative_uncertainty = 4.03;
  CHECK_THAT(terminal_summary("t", one, {}, false), Catch::Contains(">100%"));
}

TEST_CASE("A plain run writes fields, tables and a manifest that lists them", "[write_results]") {
  const ScratchFolder scratch;
  write_file(scratch.path() / "case.yaml", "abc");
  const RunRecord run{.title = "block",
                      .inputs = {{"case", scratch.path() / "case.yaml"}, {"materials", "/gone.yaml"}},
                      .options_json = R"({"accuracy": {"max_cells": 600000}})",
                      .command = "crownproof run case.yaml"};
  const std::vector<VariantRecord> variants{plain_run()};
  const WrittenResults written = write_results(run, variants, scratch.path() / "results", false);

  std::set<std::string> found;
  for (const auto& entry : fs::recursive_directory_iterator(written.folder))
    if (entry.is_regular_file())
      found.insert(entry.path().lexically_relative(written.folder).generic_string());
  CHECK(found == std::set<std::string>(written.files.begin(), written.files.end()));
  CHECK(found.contains("fields.vtu"));

  const Json manifest = Json::parse(content(written.folder / "manifest.json"));
  CHECK(manifest["files"].get<std::set<std::string>>() == found);
  CHECK(manifest["inputs"][0]["sha256"] == sha256("abc"));
  CHECK(manifest["inputs"][1]["sha256"].is_null());
  CHECK(manifest["options_in_force"]["accuracy"]["max_cells"] == 600000);
  CHECK(manifest["built_from"]["crownproof"] == version());
  CHECK(manifest["variants"][0]["nodes"] == sample().result.fields.mesh.n_nodes());
  CHECK(read_vtu(written.folder / "fields.vtu").whole);
}

TEST_CASE("A study has a folder for each variant and a collection of their fields", "[write_results]") {
  const ScratchFolder scratch;
  const auto variants = study();
  const WrittenResults written =
      write_results({.title = "study"}, variants, scratch.path() / "results", false);
  const std::string pvd = content(written.folder / "study.pvd");
  for (const char* file : {"01_thickness_1.0_mm_thin/fields.vtu", "02_thickness_1.5_mm_thin/fields.vtu"}) {
    CHECK(fs::exists(written.folder / file));
    CHECK_THAT(pvd, Catch::Contains(fmt::format("file=\"{}\"", file)));
  }
}

TEST_CASE("A study may leave out its field files, the summary is kept as text", "[write_results]") {
  const ScratchFolder scratch;
  auto variants = study();
  for (VariantRecord& variant : variants) variant.field_files = FieldFiles::none;
  const WrittenResults written =
      write_results({.title = "study"}, variants, scratch.path() / "results", false);
  CHECK_FALSE(fs::exists(written.folder / "01_thickness_1.0_mm_thin/fields.vtu"));
  CHECK_FALSE(fs::exists(written.folder / "study.pvd"));
  const std::string text = content(written.folder / "summary.txt");
  CHECK_THAT(text, Catch::StartsWith("study\n") && Catch::Contains("Not a medical device"));
}

TEST_CASE("The CSV summary has one row for each variant, bite and zone", "[tables]") {
  const auto variants = study();
  const auto rows = rows_of(summary_csv(variants));
  std::size_t expected = 1;
  for (const auto& v : variants)
    for (const auto& b : v.report.bites) expected += b.peaks.size();
  REQUIRE(rows.size() == expected);
  for (const auto& row : rows) REQUIRE(row.size() == rows[0].size());
  const auto column = [&](const std::string& name) {
    return static_cast<std::size_t>(std::find(rows[0].begin(), rows[0].end(), name) - rows[0].begin());
  };
  const ZonePeak& peak = variants[0].report.bites[0].peaks[0];
  CHECK(rows[1][0] == variants[0].label);
  CHECK(rows[1][column("crown.occlusal_thickness_mm")] == "1.0");
  CHECK(rows[1][column("bite")] == "clench");
  CHECK(rows[1][column("zone")] == zone_name(peak.zone));
  CHECK(std::stod(rows[1][column("principal_MPa")]) == Approx(peak.principal_MPa).epsilon(1e-6));
  CHECK(std::stod(rows[1][column("safety_factor")]) == Approx(peak.safety_factor).epsilon(1e-6));
}

TEST_CASE("The JSON summary carries every figure and no infinity", "[tables]") {
  auto variant = plain_run();
  variant.report.bites[0].peaks[0].safety_factor = INFINITY;
  const std::vector<VariantRecord> variants{variant};
  const Json json = Json::parse(summary_json("title \xff broken", variants));  // bad UTF-8 is replaced
  CHECK(json["schema_version"] == summary_schema_version);
  CHECK(json["caution"] == caution());
  const Json& v = json["variants"][0];
  CHECK(v["shape"]["fossa_thickness_mm"] == 1.5);
  CHECK(v["materials"][0]["across_layer_strength"]["characteristic_MPa"] == 250);
  CHECK(v["bites"][0]["zones"][0]["safety_factor"].is_null());
  const BiteReport& bite = variant.report.bites[1];
  CHECK(v["bites"][1]["verdict"] == verdict_name(bite.verdict));
  CHECK(v["bites"][1]["governing"]["safety_factor"].get<double>() == bite.tension.governing.safety_factor);
  CHECK(v["bites"][1]["contacts"][0]["force_N"] == 150);
  CHECK(v["bites"][1]["solve"]["iterations"] == bite.solve.iterations);
  CHECK(v["bites"][1]["balance"]["force_error"].get<double>() < 1e-8);
}

TEST_CASE("The same case gives the same tables, byte for byte", "[tables]") {
  const std::vector<VariantRecord> once{plain_run()}, again{plain_run()};
  CHECK(summary_json("t", once) == summary_json("t", again));
  CHECK(summary_csv(once) == summary_csv(again));
}

TEST_CASE("The terminal summary fits one screen", "[summary]") {
  const std::vector<VariantRecord> one{plain_run()};
  const WrittenResults written{.folder = "/home/somebody/results",
                               .files = {"summary.csv", "clench_crown.png"}};
  for (const auto& variants : {one, study()}) {
    const std::string text = terminal_summary("Invented block", variants, written, false);
    INFO(text);
    CHECK(lines_of(text) <= 40);
    CHECK(longest_line(text) <= 80);
    CHECK(text.find('\033') == std::string::npos);
    CHECK_THAT(text,
               Catch::Contains("clench") && Catch::Contains(verdict_name(one[0].report.bites[0].verdict)) &&
                   Catch::Contains("Not a medical device") && Catch::Contains("/home/somebody/results"));
  }
  CHECK(terminal_summary("", one, written, true).find("\033[1;3") != std::string::npos);
}

TEST_CASE("What limits the results is told with them, once", "[summary]") {
  std::vector<VariantRecord> variants = study();
  const std::string limit = "The cement is nearly incompressible";
  for (VariantRecord& v : variants)
    v.report.limits = {{.kind = LimitKind::nearly_incompressible, .region = "cement"}};
  const std::string text = terminal_summary("t", variants, {}, false);
  CHECK_THAT(text, Catch::Contains("Limit      " + limit));
  CHECK(text.find(limit) == text.rfind(limit));
  CHECK(Json::parse(summary_json("t", variants))["variants"][1]["limits"][0].get<std::string>().starts_with(
      limit));
}

TEST_CASE("A disk that fills up leaves nothing behind", "[write_results]") {
  const ScratchFolder scratch;
  const std::vector<VariantRecord> variants{plain_run()};
  {
    const FileSizeLimit limit(20000);  // less than the fields need
    CHECK_THROWS_AS(write_results({}, variants, scratch.path() / "results", false), ResultsError);
  }
  CHECK(fs::is_empty(scratch.path()));
}
