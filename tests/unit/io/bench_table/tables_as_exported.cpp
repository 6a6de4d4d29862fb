// SPDX-License-Identifier: AGPL-3.0-or-later
// Every table of tests/data/tables is read, repaired with a remark, or refused with place and remedy; none is
// misread.

#include <cmath>
#include <filesystem>
#include <numeric>
#include <set>

#include <catch2/catch.hpp>

#include "io/bench/bench_report.hpp"
#include "io/text/user_error.hpp"

using namespace crownproof;

namespace {

const std::filesystem::path folder = SOURCE_DIR "/tests/data/tables";

/// The mean strength of the ten bars, 3 F (L - l) / (2 b h^2), by hand: 11346 N / 10 / 1.2 mm2.
constexpr double mean_MPa = 945.5;

struct Read {
  const char* file;
  std::size_t n = 10;
  double mean = mean_MPa;
  std::size_t n_broken = 10;
};

/// The formula of ISO 6872 for a piston on three balls (from memory), worked out by hand with P = 1 N, nu =
/// 0.3, r1 = 5.5, r2 = 0.7, r3 = 7, thickness 1.2 mm: X, Y as defined there.
double disc_mean() {
  const double nu = 0.3, r1 = 5.5, r2 = 0.7, r3 = 7;
  const double x = (1 + nu) * std::log(std::pow(r2 / r3, 2)) + (1 - nu) / 2 * std::pow(r2 / r3, 2);
  const double y = (1 + nu) * (1 + std::log(std::pow(r1 / r3, 2))) + (1 - nu) * std::pow(r1 / r3, 2);
  return -0.2387 * 1134.6 * (x - y) / (1.2 * 1.2);
}

/// Read as they are; nothing to tell.
const std::vector<Read> read_right{
    {"plain.csv"},
    {"byte_order_mark.csv"},
    {"windows_lines.csv"},
    {"macintosh_lines.csv"},
    {"blank_rows.csv"},
    {"trailing_separators.csv"},
    {"quoted.csv"},
    {"titles_with_blanks.csv"},
    {"plus_signs.csv"},
    {"powers_of_ten.csv"},
    {"strengths_alone.csv"},
    {"discs.csv", 10, disc_mean()},
    {"all_suspended.csv", 10, mean_MPa, 0},
    {"one_specimen.csv", 1, 1204 / 1.2, 1},
    {"weak_glass.csv", 6, (17.42 + 19.815 + 21.3 + 22.084 + 23.917 + 24.66) / 6, 6},
    {"flaws_partly_named.csv", 10, mean_MPa, 9}};

struct Repaired : Read {
  const char* remark = "";
};

/// Read with a line in the report.
const std::vector<Repaired> repaired{
    {{"semicolons.csv"}, "separated by semicolons"},
    {{"semicolons_decimal_commas.csv"}, "Decimals are written with a comma"},
    {{"tabs.csv"}, "separated by tabs"},
    {{"tabs_decimal_commas.csv"}, "Decimals are written with a comma"},
    {{"separator_hint.csv"}, "separated by semicolons"},
    {{"quoted_title_over_lines.csv"}, "Titles were read: 'Load (N)' as 'load_N'"},
    {{"counter_without_title.csv"}, "Column 1 has no title and was left out"},
    {{"specimen_and_remarks.csv"}, "Left out, for no such column is needed: 'specimen', 'remarks'"},
    {{"specimen_number_twice.csv"}, "check that it is not the same one (line 11)"},
    {{"titles_in_capitals.csv"}, "'WIDTH_MM' as 'width_mm'"},
    {{"titles_with_units.csv"}, "'Inner span in mm' as 'inner_span_mm'"},
    {{"line_of_units.csv"}, "A line of units was read as such (line 2)"},
    {{"title_above.csv"}, "Left out above the header"},
    {{"header_behind_hash.csv"}, "The header stands behind #"},
    {{"header_repeated.csv"}, "the header once more (line 7)"},
    {{"load_in_kN.csv"}, "multiplied by 1000 to N"},
    {{"unit_in_cells.csv"},
     "The unit 'cm' behind numbers of 'thickness_mm' was read (10 times, first in line 2)"},
    {{"powers_of_ten_rounded.csv", 10, 1139 / 1.2}, "a narrow column of a spreadsheet rounds so"},
    {{"thousands_blanks.csv"}, "Thousands set apart in 'load_N'"},
    {{"thousands_no_break_blanks.csv"}, "Thousands set apart in 'load_N'"},
    {{"thousands_apostrophes.csv"}, "Thousands set apart in 'load_N'"},
    {{"thousands_quoted.csv"}, "Thousands set apart in 'load_N'"},
    {{"thousands_points_decimal_commas.csv"}, "Thousands set apart in 'load_N'"},
    {{"no_break_blank_in_group.csv"}, "No-break or invisible blanks"},
    {{"merged_cells.csv"}, "Empty cells of 'group' were filled from above"},
    {{"windows_letters.csv"}, "read as Windows-1252"},
    {{"utf16_with_mark.csv"}, "saved as UTF-16"},
    {{"utf16_without_mark.csv"}, "saved as UTF-16"},
    {{"end_in_other_words.csv", 10, mean_MPa, 9}, "'Did not break' was read as 'suspended' (line 3)"},
    {{"end_only_where_unbroken.csv", 10, mean_MPa, 9}, "Specimens without 'end' count as broken (9 times"},
    {{"more_than.csv", 10, mean_MPa, 9}, "'>' before values of suspended specimens was left out (line 3)"},
    {{"strength_and_load.csv"}, "Strengths were computed from loads and sizes"},
    {{"load_without_test.csv"}, "'load_N' was left out, for strengths are given"},
    {{"strengths_alone_decimal_commas.csv"}, "Decimals are written with a comma"},
    {{"pasted_twice.csv", 20, mean_MPa, 20}, "Lines 12 to 21 repeat lines 2 to 11 word for word"},
    {{"nearly_all_equal.csv", 10, 1000 / 1.2}, "bore nearly the same"},
    {{"all_equal.csv", 10, 1000 / 1.2}, "bore nearly the same"},
    {{"discs_by_radius.csv", 10, disc_mean()},
     "check that no radii are given for diameters (10 times, first in line 2)"},
    {{"bars_on_edge.csv", 10, mean_MPa * 36 / 48},
     "check that it is not exchanged with 'width_mm' (10 times, first in line 2)"},
    // Strengths by hand: the loads in odd and even lines over 2.3 and 3.0 mm squared.
    {{"sizes_scattered.csv", 10, (5511 * 9 / (2.3 * 2.3) + 5835) / 12},
     "differs from 2.3 (line 2) to 3 (line"}};

struct Refused {
  const char* file;
  const char* place;
  const char* cause;
  const char* remedy;
};

const std::vector<Refused> refused{
    {"decimal_commas_between_commas.csv", "2:8", "has 3 columns, the first line has 2",
     "decimals with a point"},
    {"thousands_unquoted.csv", "2:41", "comma stands within a number", "thousands without a mark"},
    {"thousands_or_decimals.csv", "2:35", "may be 1.204 or 1204", "Write it without a mark for thousands"},
    {"thousands_points.csv", "2:35", "outside 2 to 20000 MPa", "thousands have no mark"},
    {"mixed_decimal_marks.csv", "5:25", "decimal comma, '4.05' in line 2", "all decimals with a point"},
    {"strength_against_load.csv", "6:40", "load and sizes make 880", "Correct one of them"},
    {"empty_load.csv", "12:35", "'load_N' is empty", "Delete the line"},
    {"formula.csv", "12:35", "a formula of a spreadsheet", "with values instead of formulas"},
    {"date.csv", "12:35", "looks like a date", "Format the column as numbers"},
    {"error_values.csv", "12:1", "error value of a spreadsheet", "delete the line"},
    {"narrow_column.csv", "12:1", "error value of a spreadsheet", "mend it there"},
    {"mean_below.csv", "12:1", "'Mean' looks like a figure made of specimens", "Delete the line"},
    {"ends_as_numbers.csv", "2:40", "unknown end of a test '1'", "Allowed: broken, suspended"},
    {"ends_half_told.csv", "2:40", "'end' is empty here, and 'broken' in line 3",
     "Write 'broken', 'suspended'"},
    {"censored_column.csv", "1:63", "seems to say how the tests ended", "Name it 'end'"},
    {"group_missing.csv", "6:1", "the group is empty", "Write its name in every line"},
    {"group_letter_case.csv", "7:1", "differs from 'pressed' (line 2)", "Write both alike"},
    {"loads_in_kN_told_as_N.csv", "2:35", "outside 2 to 20000 MPa", "loads are in N"},
    {"strengths_in_GPa_told_as_MPa.csv", "2:1", "outside 2 to 20000 MPa", "not Pa or GPa"},
    {"strengths_in_Pa_told_as_MPa.csv", "2:1", "outside 2 to 20000 MPa", "not Pa or GPa"},
    {"sizes_in_metres.csv", "2:47", "outside 2 to 20000 MPa", "sizes in mm"},
    {"negative_load.csv", "12:35", "must be above zero", "Correct it"},
    {"negative_width.csv", "2:25", "must be above zero", "Correct it"},
    {"inner_span_missing.csv", "2:32", "'inner_span_mm' is empty, and 4-point bending needs it",
     "Fill it in"},
    {"spans_swapped.csv", "2:32", "inner span (40 mm) must lie between 0 and the outer", "Correct the size"},
    {"poisson_above_half.csv", "2:37", "between 0 and 0.5", "Correct the size"},
    {"poisson_missing.csv", "2:1", "depends on 'poisson_ratio'", "add this column"},
    {"broken_above_limit.csv", "3:35", "broke at 1311 N, above", "Correct 'load_N' or 'load_cell_limit_N'"},
    {"other_tests_in_group.csv", "12:9", "3-point bending here", "give each test a group of its own"},
    {"other_sizes_in_group.csv", "12:25", "'width_mm' is 2 here and 4 in line",
     "give each size a group of its own"},
    {"absurd_scatter_in_other_units.csv", "2:1", "outside 2 to 20000 MPa", "Check the units"},
    {"side_ways.csv", "1:1", "lies on its side", "Transpose it"},
    {"column_for_each_group.csv", "1:1", "no column is named 'strength_MPa'", "below each other"},
    {"set_apart_by_blanks.csv", "1:1", "set apart by blanks", "commas or tabs"},
    {"number_for_group.csv", "1:1", "60 groups, at most 50", "name it 'specimen'"},
    {"open_quote.csv", "4:1", "opened here and never closed", "Close it"},
    {"workbook.csv", "", "a workbook of a spreadsheet", "save the sheet of the specimens as CSV"},
    {"web_page.csv", "", "a web page", "save the sheet of the specimens as CSV"},
    {"suspended_at_1e308.csv", "5:35", "outside 2 to 20000 MPa", "Check the units"}};

double mean_strength(const BenchFile& bench) {
  return std::accumulate(bench.rows.begin(), bench.rows.end(), 0.0,
                         [](double sum, const BenchRow& row) { return sum + row.strength_MPa; }) /
         static_cast<double>(bench.rows.size());
}

void check_figures(const Read& expected, const BenchFile& bench) {
  CHECK(bench.rows.size() == expected.n);
  CHECK(mean_strength(bench) == Approx(expected.mean).epsilon(2e-5));
  CHECK(bench_group_names(bench).size() == 1);
  std::size_t n_broken = 0;
  for (const BenchRow& row : bench.rows) n_broken += row.end == BenchEnd::broken;
  CHECK(n_broken == expected.n_broken);
}

}  // namespace

TEST_CASE("tables as spreadsheets save them are read right, or repaired with a line in the report",
          "[bench]") {
  for (const Read& expected : read_right) {
    INFO(expected.file);
    const BenchFile bench = read_bench_file(folder / expected.file);
    check_figures(expected, bench);
    CHECK(bench.remarks.empty());
  }
  for (const Repaired& expected : repaired) {
    INFO(expected.file);
    const BenchFile bench = read_bench_file(folder / expected.file);
    check_figures(expected, bench);
    const std::string all = std::accumulate(bench.remarks.begin(), bench.remarks.end(), std::string());
    CHECK_THAT(all, Catch::Contains(expected.remark));
    // The report breaks lines, so a word of the first remark must do.
    if (!bench.remarks.empty())
      CHECK_THAT(bench_report(bench, analyse_bench(bench)),
                 Catch::Contains("\nThe table\n  - " + bench.remarks[0].substr(0, 40)));
  }
}

TEST_CASE("what is read from an exported table is fitted as by hand", "[bench]") {
  // tests/reference/weibull_of_table.py
  for (const char* file :
       {"plain.csv", "semicolons_decimal_commas.csv", "merged_cells.csv", "utf16_with_mark.csv"}) {
    const auto groups = analyse_bench(read_bench_file(folder / file));
    CHECK(groups[0].fit->characteristic_MPa == Approx(990.065696).epsilon(1e-8));
    CHECK(groups[0].fit->modulus == Approx(11.28559683).epsilon(1e-8));
  }
  for (const char* file : {"end_in_other_words.csv", "end_only_where_unbroken.csv", "more_than.csv"}) {
    const auto groups = analyse_bench(read_bench_file(folder / file));
    CHECK(groups[0].fit->characteristic_MPa == Approx(996.324146).epsilon(1e-8));
    CHECK(groups[0].fit->modulus == Approx(10.0367218).epsilon(1e-8));
  }
}

TEST_CASE("tables that may mean two things are refused with place, cause and remedy", "[bench]") {
  for (const Refused& expected : refused) {
    INFO(expected.file);
    try {
      (void)read_bench_file(folder / expected.file);
      FAIL_CHECK("read without a word");
    } catch (const UserError& error) {
      const std::string place = std::string(expected.place).empty() ? "" : std::string(":") + expected.place;
      CHECK_THAT(error.what(), Catch::StartsWith((folder / expected.file).string() + place + ": "));
      CHECK_THAT(error.what(), Catch::Contains(expected.cause) && Catch::Contains(expected.remedy));
    }
  }
}

TEST_CASE("every table of the folder is in one of the lists, and no line in two", "[bench]") {
  std::multiset<std::string> listed{"README.md"};
  for (const Read& r : read_right) listed.insert(r.file);
  for (const Repaired& r : repaired) listed.insert(r.file);
  for (const Refused& r : refused) listed.insert(r.file);
  std::multiset<std::string> there;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    there.insert(entry.path().filename().string());
  CHECK(listed == there);
}
