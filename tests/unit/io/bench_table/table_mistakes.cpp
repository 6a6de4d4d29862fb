// SPDX-License-Identifier: AGPL-3.0-or-later
// Natural mistakes in bench tables: each message has place, cause and a remedy, and the table mended as the
// remedy says is read. All numbers are invented.

#include <catch2/catch.hpp>

#include "io/bench/bench_analysis.hpp"
#include "io/bench/bench_file.hpp"
#include "io/bench/bench_report.hpp"
#include "io/machine/output_file.hpp"
#include "io/materials/materials_library.hpp"
#include "io/text/user_error.hpp"

#include "tests/support/scratch_folder.hpp"

using namespace crownproof;

namespace {

struct Mistake {
  std::string what, table, place, cause, remedy;  ///< place: ":line:column", or "" for the whole file
  std::string mended;
  std::size_t n = 2;  ///< specimens that are then read
};

const std::string strengths = "strength_MPa\n", ends = "strength_MPa,end\n", groups = "group,strength_MPa\n";
const std::string bars = "test,width_mm,thickness_mm,span_mm,load_N\n", bar = "3_point_bending,4,1.2,16,";
const std::string limits = "test,width_mm,thickness_mm,span_mm,load_N,load_cell_limit_N,end\n";
const std::string four = "test,width_mm,thickness_mm,span_mm,inner_span_mm,load_N\n4_point_bending,4,3,40,";
const std::string discs = "test,thickness_mm,diameter_mm,support_diameter_mm,loading_diameter_mm,load_N";
const std::string disc = "piston_on_three_balls,1.2,14,11,1.4,";

const std::vector<Mistake> titles{
    {"misspelt title", "strenght_MPa\n800\n850\n", ":1:1", "unknown column 'strenght_MPa'",
     "mean 'strength_MPa'", strengths + "800\n850\n"},
    {"misspelt optional title", "strength_MPa,ent\n800,broken\n850,broken\n", ":1:14", "unknown column 'ent'",
     "did you mean 'end'", ends + "800,broken\n850,broken\n"},
    {"no measured column", "group,test\na,3_point_bending\na,3_point_bending\n", ":1:1",
     "no line names the columns", "'strength_MPa' or 'load_N'", groups + "a,800\na,850\n"},
    {"title twice", "strength_MPa,strength_MPa\n800,800\n850,850\n", ":1:14", "there twice", "Delete one",
     strengths + "800\n850\n"},
    {"two candidates", "max load (N),fracture load (N)\n200,200\n", ":1:14", "may both be 'load_N'",
     "Name the one that is meant 'load_N'", "max load (N),load_N,strength_MPa\n200,200,800\n210,210,850\n"},
    {"title without unit", "strength\n800\n850\n", ":1:1", "has no unit", "Write it as 'strength_MPa'",
     strengths + "800\n850\n"},
    {"unit of another kind", "strength (mm)\n800\n850\n", ":1:1", "unit of 'strength (mm)' does not fit",
     "Write the column as 'strength_MPa'", strengths + "800\n850\n"},
    {"units contradict", "strength_MPa,end\nN,\n800,broken\n", ":2:1", "unit 'N' does not fit",
     "Correct one of them", "strength_MPa,end\nMPa,\n800,broken\n850,broken\n"},
    {"ends in a column of their own", "strength_MPa,fractured\n800,yes\n850,no\n", ":1:14",
     "how the tests ended", "Name it 'end'", ends + "800,broken\n850,suspended\n"},
    {"a line for several specimens", "strength_MPa,count\n800,2\n850,1\n", ":1:14",
     "how many specimens a line stands for", "a line of its own", strengths + "800\n800\n850\n", 3},
    {"titles down the side", "group,a,a\nload_N,200,210\n", ":1:1", "on its side", "Transpose it",
     groups + "a,800\na,850\n"},
    {"a column for each group", "glass,zirconia\n80,800\n85,850\n", ":1:1", "column is a group",
     "a column 'group'", groups + "glass,80\nglass,85\nzirconia,800\nzirconia,850\n", 4},
    {"columns set apart by blanks", "strength_MPa end\n800 broken\n", ":1:1", "set apart by blanks",
     "commas or tabs", "strength_MPa\tend\n800\tbroken\n850\tbroken\n"},
    {"only titles", "strength_MPa,end\n", "", "no specimens", "one in each line",
     ends + "800,broken\n850,broken\n"}};

const std::vector<Mistake> numbers{
    {"decimal comma", ends + "812,5,broken\n", ":2:7", "3 columns, the first line has 2",
     "decimals with a point", ends + "812.5,broken\n850,broken\n"},
    {"decimal comma, by semicolons", ends + "812,5,broken\n", ":2:7", "3 columns",
     "separate columns by semicolons", "strength_MPa;end\n812,5;broken\n850,1;broken\n"},
    {"decimals in a column without title", "strength_MPa,\n812,5\n850,\n", ":2:5",
     "behind a number in a column without a title", "with a point (812.5)", strengths + "812.5\n850\n"},
    {"both decimal marks", "strength_MPa;end\n812,5;broken\n850.1;broken\n", ":2:1",
     "a decimal comma, '850.1' in line 3", "all decimals with a point",
     "strength_MPa;end\n812.5;broken\n850.1;broken\n"},
    {"thousands or decimals", ends + "\"1,234\",broken\n", ":2:1", "may be 1.234 or 1234",
     "without a mark for thousands", ends + "1234,broken\n1180,broken\n"},
    {"empty cell", ends + "800,broken\n,broken\n", ":3:1", "'strength_MPa' is empty", "Delete the line",
     ends + "800,broken\n850,broken\n"},
    {"dash for nothing", ends + "800,broken\n-,broken\n", ":3:1", "'-' in column 'strength_MPa'",
     "write what it bore and 'suspended'", ends + "800,broken\n850,suspended\n"},
    {"letters in a number", strengths + "800\n85O\n", ":3:1",
     "'85O' in column 'strength_MPa' is not a number", "nothing else in the cell", strengths + "800\n850\n"},
    {"error value", ends + "800,broken\n#N/A,broken\n", ":3:1", "error value of a spreadsheet",
     "delete the line", ends + "800,broken\n850,broken\n"},
    {"formula", ends + "800,broken\n=A2*2,broken\n", ":3:1", "formula of a spreadsheet",
     "values instead of formulas", ends + "800,broken\n850,broken\n"},
    {"date", bars + bar + "231\n" + bar + "3-Dec\n", ":3:26", "looks like a date", "as numbers",
     bars + bar + "231\n" + bar + "231.2\n"},
    {"sign before a number", strengths + "800\n~850\n", ":3:1", "'~850'", "without a sign",
     strengths + "800\n850\n"},
    {"more than", ends + "800,broken\n>850,broken\n", ":3:1", "did not break",
     "'suspended' in a column 'end'", ends + "800,broken\n850,suspended\n"},
    {"mean below the table", groups + "a,800\na,850\nmean,825\n", ":4:1", "made of specimens",
     "Delete the line", groups + "a,800\na,850\n"},
    {"mean and scatter below the table", groups + "a,800\na,850\nMean strength,825\nSD (n = 2),35\n", ":4:1",
     "made of specimens", "Delete the line", groups + "a,800\na,850\n"},
    {"negative", bars + bar + "231\n" + bar + "-5\n", ":3:26", "must be above zero", "Correct it",
     bars + bar + "231\n" + bar + "225\n"},
    {"kN for N", bars + bar + "0.231\n", ":2:26", "outside 2 to 20000 MPa", "loads are in N",
     bars + bar + "231\n" + bar + "225\n"},
    {"GPa for MPa", strengths + "0.8\n", ":2:1", "outside 2 to 20000 MPa", "strengths are in MPa",
     strengths + "800\n850\n"},
    {"unit of another kind in a cell", bars + "3_point_bending,4 N,1.2,16,231\n", ":2:17",
     "unit 'N' does not fit", "Correct the value or the unit",
     bars + "3_point_bending,4 mm,1.2,16,231\n" + bar + "225\n"},
    {"strength against load", "strength_MPa," + bars + "900," + bar + "231\n", ":2:1",
     "load and sizes make 962.5 MPa", "delete a column", bars + bar + "231\n" + bar + "225\n"}};

const std::vector<Mistake> specimens{
    {"load without test", "load_N\n231\n", ":2:1", "needs the 'test'", "Add the columns",
     bars + bar + "231\n" + bar + "225\n"},
    {"unknown test", bars + "bending,4,1.2,16,231\n", ":2:1", "unknown test 'bending'", "3_point_bending",
     bars + bar + "231\n" + bar + "225\n"},
    {"numbers of tests", "test,strength_MPa\n1,800\n2,850\n", ":2:1", "'1' is no kind of test",
     "name it 'specimen'", "specimen,strength_MPa\n1,800\n2,850\n"},
    {"size column missing", "test,width_mm,thickness_mm,load_N\n3_point_bending,4,1.2,231\n", ":2:1",
     "depends on 'span_mm'", "add this column", bars + bar + "231\n" + bar + "225\n"},
    {"size left empty", bars + bar + "231\n3_point_bending,4,,16,225\n" + bar + "225\n", ":3:19",
     "'thickness_mm' is empty", "Fill it in", bars + bar + "231\n" + bar + "225\n"},
    {"spans exchanged", four + "60,1200\n", ":2:24", "inner span (60 mm)", "Correct the size",
     four + "20,1200\n4_point_bending,4,3,40,20,1150\n"},
    {"disc without Poisson's ratio", discs + "\n" + disc + "800\n", ":2:1", "depends on 'poisson_ratio'",
     "add this column", discs + ",poisson_ratio\n" + disc + "800,0.3\n" + disc + "850,0.3\n"},
    {"disc smaller than its support", discs + ",poisson_ratio\npiston_on_three_balls,1.2,10,11,1.4,800,0.3\n",
     ":2:33", "no larger than the disc", "Correct the size",
     discs + ",poisson_ratio\n" + disc + "800,0.3\n" + disc + "850,0.3\n"},
    {"typing error in a size", bars + bar + "231\n" + bar + "225\n3_point_bending,4,12,16,240\n", ":4:19",
     "'thickness_mm' is 12 here", "Correct the size", bars + bar + "231\n" + bar + "225\n"},
    {"two tests in a group", bars + bar + "231\ntension,4,1.2,16,231\n", ":3:1", "depends on 'length_mm'",
     "add this column", bars + bar + "231\n" + bar + "225\n"}};

const std::vector<Mistake> lines{
    {"unknown end", ends + "800,broken\n850,yes\n", ":3:5", "unknown end of a test 'yes'", "Allowed: broken",
     ends + "800,broken\n850,suspended\n"},
    {"ends under another title", "strength_MPa,how\n800,broken\n850,censored\n", ":2:5",
     "seems to say how the test ended", "Give this column that title", ends + "800,broken\n850,censored\n"},
    {"end half told", ends + "800,broken\n850,\n", ":3:5", "'end' is empty", "Write 'broken', 'suspended'",
     ends + "800,broken\n850,suspended\n"},
    {"broken above the limit", limits + bar + "231,200,broken\n", ":2:26",
     "above the load cell's limit of 200 N", "Correct 'load_N'",
     limits + bar + "231,250,broken\n" + bar + "225,250,broken\n"},
    {"suspended above the limit", limits + bar + "231,200,suspended\n", ":2:26", "bore 231 N, above",
     "'load_cell_limit_N'", limits + bar + "200,200,suspended\n" + bar + "195,200,broken\n"},
    {"empty group", groups + "a,800\na,850\n,820\n", ":4:1", "the group is empty", "in every line",
     groups + "a,800\na,850\na,820\n", 3},
    {"dash for a group", groups + "a,800\n-,850\n", ":3:1", "'-' is no name", "Write its name in every line",
     groups + "a,800\na,850\n"},
    {"letter case of a group", groups + "a,800\nA,850\n", ":3:1", "differs from 'a' (line 2)", "both alike",
     groups + "a,800\na,850\n"},
    {"letter case of a flaw", "strength_MPa,flaw\n800,pore\n850,Pore\n", ":3:5", "the flaw 'Pore' differs",
     "both alike", "strength_MPa,flaw\n800,pore\n850,pore\n"},
    {"a group that looks like a comment", groups + "#1,800\n#1,850\n", ":2:1", "pass for a comment",
     "another first letter", groups + "no 1,800\nno 1,850\n"},
    {"line too short", ends + "800\n", ":2:1", "has 1 columns", "its separator must be there",
     ends + "800,\n850,suspended\n"},
    {"quotation mark left open", groups + "\"a,800\na,850\n", ":2:1", "never closed", "Close it",
     groups + "\"a\",800\na,850\n"},
    {"second table below", groups + "a,800\na,850\ngroup,load_N\nb,231\n", ":4:1", "a second table",
     "a file of its own", groups + "a,800\na,850\n"},
    {"numbers of lines without a title", groups + "1,a,800\n2,a,850\n", ":2:5",
     "has 3 columns, the first line has 2", "give that column a title",
     "specimen," + groups + "1,a,800\n2,a,850\n"},
    {"ditto marks", groups + "a,800\n'',850\n", ":3:1", "no name for a group", "Write its name in every line",
     groups + "a,800\na,850\n"},
    {"error value behind a trailing comma", ends + "800,broken\n850,broken\n#REF!,broken,\n", ":4:1",
     "pass for a comment", "delete the line", ends + "800,broken,\n850,broken,\n"},
    {"note below the table", groups + "a,800\na,850\ntested wet\n", ":4:1", "has 1 columns",
     "a note begins with #", groups + "a,800\na,850\n# tested wet\n"}};

void check(const Mistake& m) {
  INFO(m.what);
  try {
    (void)parse_bench_text(m.table, "bars.csv");
    FAIL_CHECK("read without a word");
  } catch (const UserError& error) {
    CHECK_THAT(error.what(), Catch::StartsWith("bars.csv" + m.place + ": "));
    CHECK_THAT(error.what(), Catch::Contains(m.cause) && Catch::Contains(m.remedy));
  }
  CHECK(parse_bench_text(m.mended, "bars.csv").rows.size() == m.n);
}

}  // namespace

TEST_CASE("natural mistakes in the titles of a table: place, cause and a remedy that works", "[bench]") {
  for (const Mistake& m : titles) check(m);
}

TEST_CASE("natural mistakes in the numbers of a table: place, cause and a remedy that works", "[bench]") {
  for (const Mistake& m : numbers) check(m);
}

TEST_CASE("natural mistakes in tests and sizes: place, cause and a remedy that works", "[bench]") {
  for (const Mistake& m : specimens) check(m);
}

TEST_CASE("natural mistakes in ends, groups and lines: place, cause and a remedy that works", "[bench]") {
  for (const Mistake& m : lines) check(m);
  CHECK(titles.size() + numbers.size() + specimens.size() + lines.size() >= 40);
}

TEST_CASE("tables too large are bounded with a reason", "[bench]") {
  std::string many = groups, long_one = strengths;
  for (int i = 0; i < 20000; ++i) many += fmt::format("g{},{}\n", i, 500 + i % 300);
  for (int i = 0; i < 10001; ++i) long_one += fmt::format("{}\n", 500 + i % 300);
  CHECK_THROWS_WITH(parse_bench_text(many, "bars.csv"),
                    Catch::Contains("there are 20000") && Catch::Contains("at most 10000"));
  CHECK_THROWS_WITH(parse_bench_text(long_one, "bars.csv"),
                    Catch::StartsWith("bars.csv:10002:1: there are 10001"));
}

TEST_CASE("a specimen broken at the load cell's limit is asked about", "[bench]") {
  const std::string table = limits + bar + "200,200,broken\n" + bar + "180,200,broken\n";
  CHECK_THAT(parse_bench_text(table, "bars.csv").remarks.at(0),
             Catch::Contains("still whole then") && Catch::Contains("(line 2)"));
}

TEST_CASE("what leaving out a column or a comment may hide is told", "[bench]") {
  const auto told = [](const std::string& table) {
    std::string all;
    for (const std::string& remark : parse_bench_text(table, "bars.csv").remarks) all += remark + "\n";
    return all;
  };
  CHECK_THAT(told("ceramic,strength_MPa\nglass,80\nglass,85\nzirconia,80\nzirconia,85\n"),
             Catch::Contains("if 'ceramic' tells groups apart, name it 'group'"));
  CHECK_THAT(told("operator,strength_MPa\nx,80\nx,85\ny,80\ny,85\n"), !Catch::Contains("name it 'group'"));
  CHECK_THAT(told(groups + "a,800\n# 1,820\na,850\n"),
             Catch::Contains("Left out as a comment") && Catch::Contains("(line 3)"));
  CHECK(told(groups + "# made, in June\na,800\na,850\n").empty());
  CHECK_THAT(told(groups + ",800\n,850\n"), Catch::Contains("'group' is empty throughout"));
  CHECK_THAT(told(groups + "a,812\na,850\na,812\n"), Catch::Contains("was not entered twice (line 4)"));
}

TEST_CASE("strengths that hardly any ceramic has are asked about", "[bench]") {
  const std::string blocks = "test,width_mm,thickness_mm,length_mm,load_N\n";
  const auto first = [](const std::string& table) {
    return parse_bench_text(table, "bars.csv").remarks.at(0);
  };
  // 100 kN on 6.5 by 6.5 mm written as 100 N.
  CHECK_THAT(first(blocks + "compression,6.5,6.5,6.5,100\ncompression,6.5,6.5,6.5,97\n"),
             Catch::Contains("not kN"));
  CHECK_THAT(first(strengths + "800\n8500\n"), Catch::Contains("8500 MPa") && Catch::Contains("(line 3)"));
  CHECK_THAT(first(strengths + "800\n810\n83\n"), Catch::Contains("10 times the weakest (line 4: 83 MPa)"));
}

TEST_CASE("a folder, a record of loads and a file that is not there are no tables of specimens", "[bench]") {
  const ScratchFolder scratch;
  CHECK_THROWS_WITH(read_bench_file(scratch.path()),
                    Catch::Contains("Name the table of specimens (CSV) inside it"));
  const std::filesystem::path large = scratch.path() / "record.csv";
  write_file(large, strengths + std::string((1u << 20) + 1, '8'));
  CHECK_THROWS_WITH(read_bench_file(large),
                    Catch::Contains("larger than 1 MB, so it is not a table of specimens"));
  CHECK_THROWS_WITH(read_bench_file(scratch.path() / "none.csv"), Catch::Contains("no such file"));
}

TEST_CASE("a modulus that no ceramic has makes no material", "[bench]") {
  std::string table = bars;
  for (int i = 0; i < 30; ++i) table += bar + fmt::format("{:.6f}\n", 231 + 1e-5 * i);
  const auto groups = analyse_bench(parse_bench_text(table, "bars.csv"));
  REQUIRE(groups[0].fit->modulus > 1000);
  CHECK_THAT(why_no_material(groups[0]).value_or(""), Catch::Contains("that of no ceramic (1 to 200)"));
  MaterialsLibrary library;
  CHECK_THROWS_WITH(
      library.add_text("materials:\n  m: {youngs_modulus_GPa: 200, poisson_ratio: 0.3, strength: "
                       "{characteristic_MPa: 500, weibull_modulus: 1.0e-6}}\n",
                       "m.yaml"),
      Catch::Contains("m.yaml:2") && Catch::Contains("weibull_modulus") &&
          Catch::Contains("allowed is 1 to 200"));
}
