// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/bench_row.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/bench_table/bench_numbers.hpp"
#include "io/bench_table/cell_words.hpp"
#include "io/text/nearest_key.hpp"
#include "solver/bench/specimen_formulas.hpp"

namespace crownproof {
namespace {

/// Outside these a strength is in another unit than the column says: porous ceramics bear some MPa, the
/// strongest dense ones in compression some thousand (wide on purpose; common practice, no source).
constexpr double weakest_MPa = 2, strongest_MPa = 20000;

/// Load cells show a little more than their limit before they stop; strengths are rounded (common practice,
/// no source).
constexpr double above_limit = 1.01, at_limit = 0.999, same_strength = 0.03;

/// The column to look at where sizes make no specimen.
std::string doubtful_size(const BenchSpecimen& s) {
  if (!(s.layer_tilt_deg >= 0 && s.layer_tilt_deg <= 90)) return "layer_tilt_deg";
  if (is_disc(s.test)) return s.poisson >= 0 && s.poisson < 0.5 ? "loading_diameter_mm" : "poisson_ratio";
  return s.test == BenchTest::bend_4_point ? "inner_span_mm" : "thickness_mm";
}

/// Reads one line.
class RowReader {
 public:
  RowReader(const BenchTable& table, const TableLine& line, DecimalMark mark)
      : table_(table), line_(line), mark_(mark) {
    read_.row.group = "all";
    read_.row.place = line.place;
  }

  ReadRow read() {
    refuse_summary();
    if (const TableCell* test = filled("test")) {
      specimen_.test = taken(test_word(*test));
      read_sizes(*test);
      if (const auto why = why_no_specimen(specimen_)) {
        const TableCell* doubtful = filled(doubtful_size(specimen_));
        throw UserError(doubtful ? doubtful->place : test->place, fmt::format("{} Correct the size.", *why));
      }
      read_.row.specimen = specimen_;
    }
    read_names();
    if (const TableCell* end = filled("end")) {
      read_.row.end = taken(end_word(*end));
      read_.tells_end = true;
    }
    if (const TableCell* limit = filled("load_cell_limit_N"))
      read_.row.load_cell_limit_N = number(*limit, "load_cell_limit_N");
    read_strength();
    return read_;
  }

 private:
  const TitledColumn* column(const std::string& name) const {
    for (const TitledColumn& c : table_.columns)
      if (c.column && c.column->name == name) return &c;
    return nullptr;
  }

  /// The cell of a column, or null where there is none or nothing in it.
  const TableCell* filled(const std::string& name) const {
    const TitledColumn* c = column(name);
    if (!c) return nullptr;
    const TableCell& cell = line_.cells[static_cast<std::size_t>(c - table_.columns.data())];
    return cell.text.empty() || stands_for_nothing(cell.text) ? nullptr : &cell;
  }

  void tell(const std::vector<Remark>& remarks) {
    read_.remarks.insert(read_.remarks.end(), remarks.begin(), remarks.end());
  }

  template <typename Value>
  Value taken(const UnderstoodWord<Value>& word) {
    tell(word.remarks);
    return word.value;
  }

  /// A number that is exactly known.
  double number(const TableCell& cell, const std::string& name) {
    const BenchNumber number = bench_number(cell, *column(name), mark_);
    if (number.or_more)
      throw UserError(
          cell.place,
          fmt::format("'{}' in column '{}' is not a number. Write the value without a sign before "
                      "it.",
                      cell.text, name));
    tell(number.remarks);
    return number.value;
  }

  /// A load or strength; ">" before it is right where the test was stopped.
  double measured(const TableCell& cell, const std::string& name) {
    const BenchNumber number = bench_number(cell, *column(name), mark_);
    if (number.or_more && read_.row.end != BenchEnd::suspended)
      throw UserError(
          cell.place,
          fmt::format("'{}' says that the specimen did not break. Write the value without the sign, "
                      "and 'suspended' in a column 'end'.",
                      cell.text));
    tell(number.remarks);
    if (number.or_more) tell({{"'>' before values of suspended specimens was left out", cell.place}});
    return number.value;
  }

  void refuse_summary() const {
    for (const TableCell& cell : line_.cells)
      if (names_a_summary(cell.text) || (&cell == &line_.cells[0] && begins_like_a_summary(cell.text)))
        throw UserError(
            cell.place,
            fmt::format("'{}' looks like a figure made of specimens, not like one of them. Delete "
                        "the line (or name the group otherwise).",
                        cell.text));
  }

  void read_sizes(const TableCell& test) {
    for (const TitledColumn& c : table_.columns) {
      if (!c.column || !c.column->size) continue;
      if (const TableCell* cell = filled(c.column->name))
        specimen_.*(c.column->size) = number(*cell, c.column->name);
    }
    for (const std::string& name : needed_sizes(specimen_.test)) {
      if (filled(name)) continue;
      const char* hint = name == "poisson_ratio" ? " (dental ceramics: 0.2 to 0.33)" : "";
      if (const TitledColumn* c = column(name))
        throw UserError(line_.cells[static_cast<std::size_t>(c - table_.columns.data())].place,
                        fmt::format("'{}' is empty, and {} needs it{}. Fill it in.", name,
                                    bench_test_name(specimen_.test), hint));
      throw UserError(test.place, fmt::format("the stress in {} depends on '{}'{}: add this column.",
                                              bench_test_name(specimen_.test), name, hint));
    }
  }

  void read_names() {
    if (const TitledColumn* c = column("group")) {
      const TableCell& cell = line_.cells[static_cast<std::size_t>(c - table_.columns.data())];
      if (stands_for_no_name(cell.text))
        throw UserError(cell.place,
                        fmt::format("'{}' is no name for a group. Write its name in every line.", cell.text));
      if (!cell.text.empty()) read_.row.group = cell.text;
      if (cell.odd_blanks)
        tell({{"No-break or invisible blanks in names were read as plain ones", cell.place}});
    }
    if (const TableCell* flaw = filled("flaw")) read_.row.flaw = flaw->text;
    if (const TableCell* normal = filled("layer_normal"))
      specimen_.layer_normal = taken(layer_normal_of_word(*normal));
    if (read_.row.specimen) read_.row.specimen = specimen_;
  }

  void read_strength() {
    const TableCell *load = filled("load_N"), *strength = filled("strength_MPa");
    if (!load && !strength) refuse_unmeasured();
    if (strength) read_.row.strength_MPa = measured(*strength, "strength_MPa");
    if (!load) return refuse_units(*strength, "strengths are in MPa, not Pa or GPa; thousands have no mark");
    if (!read_.row.specimen) {
      if (!strength)
        throw UserError(load->place,
                        "a load needs the 'test' and the sizes of the specimen to become a strength. Add the "
                        "columns, or give 'strength_MPa'.");
      tell({{"'load_N' was left out, for strengths are given, and test and sizes are not", load->place}});
      return refuse_units(*strength, "strengths are in MPa, not Pa or GPa");
    }
    read_load(*load, strength);
  }

  void read_load(const TableCell& cell, const TableCell* strength) {
    const double load = measured(cell, "load_N");
    refuse_above_limit(cell, load);
    ask_about_limit(cell, load);
    const double stress = nominal_stress(specimen_, load);
    if (strength) {
      read_.strength_difference = read_.row.strength_MPa / stress - 1;
      if (!(std::abs(*read_.strength_difference) <= same_strength))
        throw UserError(
            strength->place,
            fmt::format(
                "the strength is given as {:.5g} MPa, but load and sizes make {:.5g} MPa. Correct one "
                "of them, or delete a column.",
                read_.row.strength_MPa, stress));
    }
    read_.row.strength_MPa = stress;
    refuse_units(cell, "loads are in N, sizes in mm; thousands have no mark");
  }

  [[noreturn]] void refuse_unmeasured() const {
    const std::string name = column("load_N") ? "load_N" : "strength_MPa";
    const std::size_t at = static_cast<std::size_t>(column(name) - table_.columns.data());
    const std::string& text = line_.cells[at].text;
    const std::string what = text.empty() ? fmt::format("'{}' is empty", name)
                                          : fmt::format("'{}' in column '{}' is not a number", text, name);
    throw UserError(
        line_.cells[at].place,
        fmt::format(
            "{}. Delete the line if nothing was measured; if the specimen did not break, write what it "
            "bore and 'suspended' in a column 'end'; a note begins with # and a space.",
            what));
  }

  /// A load cell cannot read what lies above its limit.
  void refuse_above_limit(const TableCell& cell, double load) const {
    const auto& limit = read_.row.load_cell_limit_N;
    if (!limit || load <= above_limit * *limit) return;
    throw UserError(cell.place,
                    fmt::format("the specimen {} {:g} N, above the load cell's limit of {:g} N. Correct "
                                "'load_N' or 'load_cell_limit_N'.",
                                read_.row.end == BenchEnd::suspended ? "bore" : "broke at", load, *limit));
  }

  /// What was still whole at the limit is suspended; entered as broken it makes the fit wrong.
  void ask_about_limit(const TableCell& cell, double load) {
    const auto& limit = read_.row.load_cell_limit_N;
    if (limit && read_.row.end == BenchEnd::broken && load >= at_limit * *limit)
      tell({{"Broken at the load cell's limit: a specimen that was still whole then is 'suspended'",
             cell.place}});
  }

  void refuse_units(const TableCell& cell, const char* units) const {
    const double strength = read_.row.strength_MPa;
    if (strength >= weakest_MPa && strength <= strongest_MPa) return;
    throw UserError(cell.place,
                    fmt::format("a strength of {:g} MPa lies outside {:g} to {:g} MPa. Check the units: {}.",
                                strength, weakest_MPa, strongest_MPa, units));
  }

  const BenchTable& table_;
  const TableLine& line_;
  DecimalMark mark_;
  BenchSpecimen specimen_;
  ReadRow read_;
};

}  // namespace

std::vector<std::string> needed_sizes(BenchTest test) {
  if (is_disc(test))
    return {"thickness_mm", "diameter_mm", "support_diameter_mm", "loading_diameter_mm", "poisson_ratio"};
  if (test == BenchTest::bend_3_point) return {"width_mm", "thickness_mm", "span_mm"};
  if (test == BenchTest::bend_4_point) return {"width_mm", "thickness_mm", "span_mm", "inner_span_mm"};
  return {"width_mm", "thickness_mm", "length_mm"};
}

ReadRow read_bench_row(const BenchTable& table, const TableLine& line, DecimalMark mark) {
  return RowReader(table, line, mark).read();
}

}  // namespace crownproof
