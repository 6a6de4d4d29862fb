// SPDX-License-Identifier: AGPL-3.0-or-later
// The findings of bench tests as files: every digit, every group, the same figures in all of them.
#include "io/bench/bench_tables.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "io/bench/bench_report.hpp"
#include "tests/support/nist_data.hpp"

using namespace crownproof;
using Catch::Contains;

namespace {

/// Thirty bars of silicon nitride of each batch (NIST, public domain).
BenchFindings nitride() {
  std::string text = "group,strength_MPa\n";
  for (const int batch : {1, 2})
    for (const Specimen& s : test::silicon_nitride(batch, 1))
      text += fmt::format("batch {},{}\n", batch, s.stress_MPa);
  const BenchFile bench = parse_bench_text(text, "nitride.csv");
  return bench_findings(bench, analyse_bench(bench));
}

/// Cells of the second line of a table, by the names of the first.
std::map<std::string, std::string> first_row(const std::string& table) {
  std::istringstream lines(table);
  std::string names, cells, name, cell;
  std::getline(lines, names);
  std::getline(lines, cells);
  std::istringstream of_names(names), of_cells(cells);
  std::map<std::string, std::string> row;
  while (std::getline(of_names, name, ',') && std::getline(of_cells, cell, ',')) row[name] = cell;
  return row;
}

}  // namespace

TEST_CASE("Tables and JSON carry every digit of the fits", "[bench_tables]") {
  const BenchFindings all = nitride();
  const WeibullFit& fit = *all.groups[0].fit;
  CHECK(fit.modulus == Approx(14.8897).epsilon(1e-5));  // an independent fit, see solver/bench/weibull.cpp
  const auto row = first_row(bench_groups_csv(all));
  CHECK(std::stod(row.at("weibull_modulus")) == fit.modulus);
  CHECK(std::stod(row.at("characteristic_MPa")) == fit.characteristic_MPa);
  CHECK(std::stod(row.at("strength_1_percent_low_MPa")) == all.groups[0].low->one_percent_MPa.low);
  CHECK(row.at("specimens") == "30");
  const auto json = nlohmann::json::parse(bench_json(all));
  CHECK(json["groups"][0]["fit"]["weibull_modulus"] == fit.modulus);
  CHECK(json["groups"][0]["strengths"].size() == 30);
  CHECK(json["groups"][1]["fit"]["characteristic_bounds_90_MPa"][1] ==
        all.groups[1].bounds->characteristic_MPa.high);
}

TEST_CASE("The table of pairs has every p and the verdict", "[bench_tables]") {
  const BenchFindings all = nitride();
  const auto row = first_row(bench_pairs_csv(all));
  CHECK(row.at("first") == "batch 1");
  CHECK(std::stod(row.at("p_distribution")) == all.comparison->pairs[0].distribution->p);
  CHECK(row.at("differ") == "yes");
  CHECK(nlohmann::json::parse(bench_json(all))["comparison"]["pairs"][0]["differ"] == true);
}

TEST_CASE("The page for a paper names the methods that were used, and no others", "[bench_tables]") {
  const std::string page = bench_methods_page(nitride());
  CHECK_THAT(page, Contains("maximum likelihood") && Contains("Thoman, Bain & Antle 1969") &&
                       Contains("parametric bootstrap") && !Contains("suspended") && !Contains("Holm"));
  CHECK_THAT(page, Contains("| batch 1 | 30 (30) | 719 ("));
  const BenchFile some = parse_bench_text(
      "strength_MPa,end\n500,broken\n540,broken\n560,broken\n580,suspended\n580,suspended\n", "bars.csv");
  CHECK_THAT(bench_methods_page(bench_findings(some, analyse_bench(some))),
             Contains("counted as suspended") && Contains("DiCiccio") && !Contains("Thoman"));
}

TEST_CASE("A group without a fit has its reason in every file", "[bench_tables]") {
  const BenchFile bench = parse_bench_text(
      "group,strength_MPa,end\na,500,broken\na,540,broken\na,560,broken\nb,600,suspended\nb,600,suspended\n",
      "bars.csv");
  const BenchFindings all = bench_findings(bench, analyse_bench(bench));
  CHECK_THAT(bench_groups_csv(all), Contains("\"None of the specimens broke, so"));
  CHECK_THAT(bench_pairs_csv(all), Contains("None of the specimens broke"));
  CHECK_THAT(bench_methods_page(all), Contains("| b | 2 | | | | | None of the specimens broke"));
  CHECK(nlohmann::json::parse(bench_json(all))["groups"][1]["fit"].is_null());
}

TEST_CASE("The probability plot shows bands, suspended specimens, n, s0 and m", "[bench_plot]") {
  const BenchFile bench = parse_bench_text(
      "group,strength_MPa,end\na<b,500,broken\na<b,540,broken\na<b,560,broken\na<b,580,suspended\na<b,580,"
      "suspended\n",
      "bars.csv");
  const std::string svg = bench_plot_svg(analyse_bench(bench));
  CHECK_THAT(svg, Contains("<polygon") && Contains("n = 5 (2 suspended), s0 = ") && Contains(", m = ") &&
                      Contains("a&lt;b") && Contains("suspended, strength above") && Contains(">2</text>"));
}
