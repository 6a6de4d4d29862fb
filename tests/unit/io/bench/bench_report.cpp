// SPDX-License-Identifier: AGPL-3.0-or-later
// The bench command's tables and material file, on public data and invented tests.

#include <cmath>

#include <catch2/catch.hpp>

#include "io/bench/bench_report.hpp"
#include "io/materials/materials_library.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/random_numbers.hpp"
#include "solver/model/strength.hpp"
#include "tests/support/nist_data.hpp"

using namespace crownproof;

namespace {

std::string reading_error(const std::string& text) {
  try {
    (void)parse_bench_text(text, "bars.csv");
  } catch (const UserError& error) {
    return error.what();
  }
  return "no error";
}

/// Bars in 3-point bending with invented strengths; `limit_N`: the load cell's limit.
std::string invented_bars(int n, double limit_N) {
  RandomNumbers random(4);
  std::string text = "test,width_mm,thickness_mm,span_mm,load_N,load_cell_limit_N,end\n";
  for (int i = 0; i < n; ++i) {
    const double load = random.weibull(900, 9) * 2 * 4 * 1.2 * 1.2 / (3 * 16);
    text += fmt::format("3_point_bending,4,1.2,16,{:.2f},{},{}\n", std::min(load, limit_N), limit_N,
                        load < limit_N ? "broken" : "suspended");
  }
  return text;
}

}  // namespace

TEST_CASE("silicon nitride batches: fits, and pooling is flagged", "[bench]") {
  std::string text = "group,strength_MPa\n";
  for (const int batch : {1, 2})
    for (const Specimen& s : test::silicon_nitride(batch))
      text += fmt::format("batch {},{}\n", batch, s.stress_MPa);
  const BenchFile bench = parse_bench_text(text, "nitride.csv");
  const auto groups = analyse_bench(bench);
  REQUIRE(groups.size() == 2);
  CHECK(groups[0].fit->modulus == Approx(14.0397).epsilon(1e-5));
  CHECK(groups[1].fit->characteristic_MPa == Approx(639.125).epsilon(1e-5));
  const std::string report = bench_report(bench, groups);
  CHECK_THAT(report, Catch::Contains("should not be pooled"));
  CHECK_THAT(report,
             Catch::Contains("No crown can be computed") && Catch::Contains("effective volume is not known"));
  const MaterialData like = builtin_materials().get("zirconia_3y_milled", {});
  CHECK_THROWS_WITH(bench_material_yaml({"x", "nitride.csv"}, like, groups[0], nullptr),
                    Catch::Contains("cannot be the source of a material"));
}

TEST_CASE("a material file made from bars can be read and carries its bounds", "[bench]") {
  const BenchFile bench = parse_bench_text(invented_bars(30, 1e5), "bars.csv");
  const auto groups = analyse_bench(bench);
  const MaterialData like = builtin_materials().get("zirconia_3y_milled", {});
  MaterialsLibrary library;
  library.add_text(bench_material_yaml({"my_bars", "bars.csv"}, like, groups[0], nullptr), "my_bars.yaml");
  const Strength s = to_material(*library.find("my_bars")).strength->in_layer;
  CHECK(s.characteristic_MPa == Approx(groups[0].fit->characteristic_MPa).epsilon(1e-5));
  CHECK(s.weibull_modulus == Approx(*groups[0].bounds->unbiased_modulus).epsilon(1e-5));
  CHECK(s.bounds->modulus.low == Approx(groups[0].bounds->modulus.low).epsilon(1e-5));
  CHECK(s.specimen->span_mm == 16);
  CHECK_THAT(bench_plot_svg(groups), Catch::StartsWith("<svg") && Catch::EndsWith("</svg>\n"));
  CHECK_THAT(bench_plot_svg(groups), Catch::Contains("Not a medical device"));
}

TEST_CASE("how printed bars were built goes from the table to the material", "[bench]") {
  std::string table = "group,test,width_mm,thickness_mm,span_mm,strength_MPa,layer_normal,layer_tilt_deg\n";
  for (const char* strength : {"700", "760", "800", "830", "880"})
    table += fmt::format("upright,3_point_bending,4,1.2,16,{},length,15\n", strength);
  const auto groups = analyse_bench(parse_bench_text(table, "bars.csv"));
  const MaterialData like = builtin_materials().get("zirconia_3y_printed", {});
  MaterialsLibrary library;
  BenchMaterialRequest request{"mine", "bars.csv"};
  request.at_least = 5;
  library.add_text(bench_material_yaml(request, like, groups[0], &groups[0]), "mine.yaml");
  const BenchSpecimen s = *to_material(*library.find("mine")).strength->across_layer->specimen;
  CHECK(s.layer_normal == LayerNormal::length);
  CHECK(s.layer_tilt_deg == 15);
  CHECK_THROWS_WITH(parse_bench_text(table + "upright,3_point_bending,4,1.2,16,900,up,0\n", "bars.csv"),
                    Catch::Contains("thickness"));
  CHECK_THROWS_WITH(parse_bench_text(table + "upright,3_point_bending,4,1.2,16,900,length,95\n", "bars.csv"),
                    Catch::Contains("0 to 90 degrees"));
  // Bars built in different ways are no common source.
  const auto mixed =
      analyse_bench(parse_bench_text(table + "upright,3_point_bending,4,1.2,16,900,length,0\n", "bars.csv"));
  CHECK_FALSE(mixed[0].specimen);
}

TEST_CASE("a load cell's limit: suspended specimens and what the limit does", "[bench]") {
  const BenchFile bench = parse_bench_text(invented_bars(20, 205), "bars.csv");
  const auto groups = analyse_bench(bench);
  REQUIRE(groups[0].fit);
  CHECK(groups[0].fit->n_suspended > 3);
  const std::string report = bench_report(bench, groups);
  const double limit_MPa = 3 * 205 * 16 / (2 * 4 * 1.2 * 1.2);
  const double reach =
      100 * std::exp(-std::pow(limit_MPa / groups[0].fit->characteristic_MPa, groups[0].fit->modulus));
  CHECK_THAT(report, Catch::Contains(fmt::format("limit unbroken with probability {:.1f} %", reach)));
  CHECK_THAT(report, Catch::Contains("likelihood-ratio bounds"));
}

TEST_CASE("blocks in compression: limit effect stated, no crown from them", "[bench]") {
  // Invented: printed zirconia blocks of 6.5 mm, 100 kN cell, 7 of 12 broken.
  std::string text = "group,test,width_mm,thickness_mm,length_mm,load_N,load_cell_limit_N,end\n";
  for (const double load : {71000, 78000, 84000, 89000, 93000, 96000, 99000})
    text += fmt::format("flat,compression,6.5,6.5,6.5,{},100000,broken\n", load);
  for (int i = 0; i < 5; ++i) text += "flat,compression,6.5,6.5,6.5,100000,100000,suspended\n";
  const BenchFile bench = parse_bench_text(text, "blocks.csv");
  const std::string report = bench_report(bench, analyse_bench(bench));
  CHECK_THAT(report, Catch::Contains("Load cell limit 100000 N"));
  CHECK_THAT(report, Catch::Contains("limit unbroken with probability"));
  CHECK_THAT(report, Catch::Contains("times the true modulus"));
  CHECK_THAT(report, Catch::Contains("compressive strength says nothing"));
}

TEST_CASE("what a larger cell would do, and bounds that are none", "[bench]") {
  // Invented: one of twelve blocks broke, early, so hardly anything is known of the strength above the limit.
  std::string text = "test,width_mm,thickness_mm,length_mm,load_N,load_cell_limit_N,end\n";
  text += "compression,6.5,6.5,6.5,70000,100000,broken\n";
  for (int i = 0; i < 11; ++i) text += "compression,6.5,6.5,6.5,100000,100000,suspended\n";
  const BenchFile bench = parse_bench_text(text, "blocks.csv");
  const auto groups = analyse_bench(bench);
  const std::string report = bench_report(bench, groups);
  CHECK_THAT(report,
             Catch::Contains(fmt::format("{:.1f} or more", groups[0].bounds->characteristic_MPa.low)));
  CHECK_THAT(report, Catch::Contains("Only 1 broke"));
  // 90 % broken: s0 ln(10)^(1/m), by the load on the block and rounded up to two figures.
  const WeibullFit& fit = *groups[0].fit;
  const double load = fit.characteristic_MPa * std::pow(std::log(10.0), 1 / fit.modulus) * 6.5 * 6.5;
  REQUIRE((load > 1e5 && load < 1e6));
  CHECK_THAT(report, Catch::Contains(
                         fmt::format("A cell of {:.0f} N would break 90 %", 1e4 * std::ceil(load / 1e4))));
}

TEST_CASE("how many specimens the next test needs", "[bench]") {
  const BenchFile few = parse_bench_text(invented_bars(12, 1e5), "bars.csv");
  CHECK_THAT(bench_report(few, analyse_bench(few)),
             Catch::Contains("at most 1.5 times the lower, 43 specimens "
                             "must break"));
  const BenchFile many = parse_bench_text(invented_bars(120, 1e5), "bars.csv");
  CHECK_THAT(bench_report(many, analyse_bench(many)), !Catch::Contains("Next time"));
}

TEST_CASE("a specimen that broke for another reason is counted and named", "[bench]") {
  const BenchFile bench =
      parse_bench_text("strength_MPa,end\n500,broken\n540,broken\n580,broken_otherwise\n", "bars.csv");
  CHECK_THAT(bench_report(bench, analyse_bench(bench)),
             Catch::Contains("2 broken, 1 suspended (1 of them broke for another reason)"));
}

TEST_CASE("competing flaws in a table: each fitted with the others as suspended", "[bench]") {
  // Invented; the fits were found by an independent maximisation of the likelihood.
  std::string text = "strength_MPa,flaw\n";
  for (const int s : {412, 455, 478, 490, 503, 515, 528, 540, 561, 583})
    text += fmt::format("{},surface\n", s);
  for (const int s : {398, 437, 469, 499, 533}) text += fmt::format("{},volume\n", s);
  const BenchFile bench = parse_bench_text(text, "flaws.csv");
  const auto groups = analyse_bench(bench);
  CHECK(groups[0].fit->modulus == Approx(11.06790124).epsilon(1e-8));
  CHECK(groups[0].fit->characteristic_MPa == Approx(516.218356).epsilon(1e-8));
  const std::string report = bench_report(bench, groups);
  CHECK_THAT(report,
             Catch::Contains("surface               10 broken, characteristic 536.30 MPa, modulus 13.374"));
  CHECK_THAT(report,
             Catch::Contains("volume                 5 broken, characteristic 585.61 MPa, modulus 7.957"));
}

TEST_CASE("5 of 12 against 1 of 12", "[bench]") {
  std::string text = "group,strength_MPa,end\n";
  for (int i = 0; i < 12; ++i)
    text += fmt::format("a,{},{}\n", i < 5 ? 1900 + 60 * i : 2300, i < 5 ? "broken" : "suspended");
  for (int i = 0; i < 12; ++i)
    text += fmt::format("b,{},{}\n", i < 1 ? 2200 : 2300, i < 1 ? "broken" : "suspended");
  const BenchFile bench = parse_bench_text(text, "blocks.csv");
  CHECK_THAT(bench_report(bench, analyse_bench(bench)),
             Catch::Contains("5 of 12 against 1 of 12 is not yet evidence: p = 0.155."));
}

TEST_CASE("one group all broken, another not: the whole report comes", "[bench]") {
  // Invented.
  std::string text = "group,strength_MPa,end\n";
  for (const int s : {500, 520, 540, 555}) text += fmt::format("a,{},broken\n", s);
  for (const int s : {505, 530, 560, 600})
    text += fmt::format("b,{},{}\n", s, s < 600 ? "broken" : "suspended");
  const BenchFile bench = parse_bench_text(text, "bars.csv");
  const std::string report = bench_report(bench, analyse_bench(bench));
  // 4 of 4 against 3 of 4: the number needed by enumeration of all tables with exact binomials.
  CHECK_THAT(report, Catch::Contains("four tests of five, 31 specimens a group"));
  CHECK_THAT(report,
             Catch::Contains("Group a") && Catch::Contains("Group b") && Catch::Contains("Next time"));
}

TEST_CASE("a group of which every specimen broke for another reason does not lose the report", "[bench]") {
  // Invented.
  const BenchFile bench = parse_bench_text(
      "group,strength_MPa,end\na,500,broken\na,540,broken\na,580,suspended\nb,300,broken_otherwise\n"
      "b,320,broken_otherwise\n",
      "bars.csv");
  CHECK_THAT(bench_report(bench, analyse_bench(bench)),
             Catch::Contains("Group a") && Catch::Contains("Comparison") && !Catch::Contains("nan"));
}

TEST_CASE("a flaw that cannot be fitted is told in one line, the others are fitted", "[bench]") {
  // Invented; 'volume' was seen once, on the strongest bar.
  std::string text = "strength_MPa,flaw\n";
  for (const int s : {500, 520, 540, 560}) text += fmt::format("{},surface\n", s);
  const BenchFile bench = parse_bench_text(text + "600,volume\n", "bars.csv");
  const std::string report = bench_report(bench, analyse_bench(bench));
  CHECK_THAT(report, Catch::Contains("surface                4 broken, characteristic"));
  CHECK_THAT(report,
             Catch::Contains("volume                 1 broken, not fitted: All broken specimens have"));
  CHECK_THAT(report, Catch::Contains("Next time") && Catch::Contains("characteristic strength"));
}

TEST_CASE("lines that can be read but cannot be true are refused with place and remedy", "[bench]") {
  const std::string head = "group,strength_MPa\na,500\n";
  CHECK_THAT(reading_error("strength_MPa,end\n500,broken\n#DIV/0!,broken\n"),
             Catch::Contains("bars.csv:3:1") && Catch::Contains("pass for a comment"));
  CHECK_THAT(reading_error("strength_MPa\n500\n#N/A\n"), Catch::Contains("space after #"));
  CHECK_THAT(reading_error(head + "#1,510\n"), Catch::Contains("another first letter"));
  CHECK(parse_bench_text(head + "# b,510\n#\n# a note\na,520\n", "bars.csv").rows.size() == 2);
  CHECK_THAT(reading_error(head + "a,505\n,510\n"),
             Catch::Contains("bars.csv:4:1: the group is empty") && Catch::Contains("merged cells"));
  CHECK_THAT(reading_error(head + "A,510\n"),
             Catch::Contains("bars.csv:3:1") && Catch::Contains("letter case"));
  CHECK_THAT(reading_error("group,strength_MPa\na b,500\na_b,510\n"), Catch::Contains("blanks or hyphens"));
  CHECK_THAT(reading_error("strength_MPa\n1.2\n"), Catch::Contains("not Pa or GPa"));
  CHECK_THAT(reading_error("strength_MPa\n900000000\n"), Catch::Contains("2 to 20000 MPa"));
  const std::string bar =
      "test,width_mm,thickness_mm,span_mm,load_N,load_cell_limit_N,end\n3_point_bending,4,";
  CHECK_THAT(reading_error(bar + "1.2,16,0.2,1,broken\n"), Catch::Contains("sizes in mm"));
  CHECK_THAT(reading_error(bar + "1.2,16,220,200,broken\n"),
             Catch::Contains("broke at 220 N, above the load cell's limit of 200 N"));
  CHECK_THAT(reading_error("test,thickness_mm,diameter_mm,support_diameter_mm,loading_diameter_mm,load_N\n"
                           "piston_on_three_balls,1.2,14,10,1.4,800\n"),
             Catch::Contains("bars.csv:2:1") && Catch::Contains("'poisson_ratio'"));
}

TEST_CASE("'censored' is another word for 'suspended'", "[bench]") {
  const BenchFile bench = parse_bench_text("strength_MPa,end\n500,broken\n600,censored\n", "bars.csv");
  CHECK(bench.rows[1].end == BenchEnd::suspended);
}

TEST_CASE("broken specimens without a flaw are told, seven groups are compared", "[bench]") {
  const BenchFile flaws = parse_bench_text("strength_MPa,flaw\n500,surface\n520,\n540,surface\n", "bars.csv");
  CHECK_THAT(bench_report(flaws, analyse_bench(flaws)), Catch::Contains("1 broke with no flaw named"));
  std::string text = "group,strength_MPa\n";
  for (int g = 0; g < 7; ++g)
    for (const int s : {500, 540, 590}) text += fmt::format("group {},{}\n", g, s + g);
  const BenchFile many = parse_bench_text(text, "bars.csv");
  const std::string report = bench_report(many, analyse_bench(many));
  CHECK_THAT(report, Catch::Contains("All 7 groups") && Catch::Contains("21 pairs"));
  CHECK_THAT(report, Catch::Contains("group 5 and group 6: not shown to differ"));
}

TEST_CASE("mistakes in a bench table have a place and a remedy", "[bench]") {
  CHECK_THAT(reading_error("strenght_MPa\n500\n"),
             Catch::Contains("bars.csv:1:1") && Catch::Contains("strength_MPa"));
  CHECK_THAT(reading_error("strength_MPa,end\n500,brk\n"),
             Catch::Contains("bars.csv:2:5") && Catch::Contains("broken"));
  CHECK_THAT(reading_error("# note\nstrength_MPa,end\nx,broken\n"), Catch::Contains("bars.csv:3:1: 'x'"));
  CHECK_THAT(reading_error("strength_MPa\n-5\n"), Catch::Contains("above zero"));
  CHECK_THAT(reading_error("strength_MPa,end\n500\n"), Catch::Contains("has 1 columns"));
  CHECK_THAT(reading_error("load_N\n500\n"), Catch::Contains("needs the 'test'"));
  CHECK_THAT(reading_error("load_N,test,width_mm\n500,3_point_bending,4\n"), Catch::Contains("thickness"));
  CHECK_THAT(reading_error("group\na\n"), Catch::Contains("one of them 'strength_MPa' or 'load_N'"));
  CHECK_THAT(reading_error("strength_MPa\n"), Catch::Contains("no specimens"));
  CHECK_THAT(reading_error("strength_MPa,strength_MPa\n1,1\n"), Catch::Contains("twice"));
  CHECK_THAT(reading_error("strength_MPa\nnan\n"), Catch::Contains("not a number"));
}
