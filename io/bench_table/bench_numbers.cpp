// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/bench_numbers.hpp"

#include <array>
#include <optional>

#include <fmt/format.h>

#include "io/text/nearest_key.hpp"

namespace crownproof {
namespace {

/// The first cell of each kind of hint.
struct Hints {
  std::array<const TableCell*, 5> first{};
  const TableCell* of(MarkHint hint) const { return first[static_cast<std::size_t>(hint)]; }
};

Hints hints_of(const BenchTable& table) {
  Hints hints;
  for (const TableLine& line : table.lines)
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      if (!table.columns[i].column || !table.columns[i].column->is_number) continue;
      const TableCell*& first = hints.first[static_cast<std::size_t>(mark_hint(line.cells[i].text))];
      if (!first) first = &line.cells[i];
    }
  return hints;
}

std::string without(std::string text, char mark) {
  std::erase(text, mark);
  return text;
}

[[noreturn]] void refuse_either_way(const TableCell& cell) {
  std::string decimal = cell.text;
  decimal.replace(decimal.find(','), 1, ".");
  throw UserError(cell.place,
                  fmt::format("'{}' may be {} or {}. Write it without a mark for thousands and with a point "
                              "for decimals.",
                              cell.text, decimal, without(cell.text, ',')));
}

/// What stands behind a number, in the unit of its column.
double unit_factor(const TableCell& cell, const NumberText& number, const TitledColumn& column) {
  const double of_column = column.unit ? column.unit->factor : 1;
  if (number.unit.empty()) return of_column;
  const Unit unit = *unit_of(number.unit);
  if (unit.dimension != column.column->dimension)
    throw UserError(cell.place,
                    fmt::format("the unit '{}' does not fit the column '{}'. Correct the value or the unit.",
                                number.unit, column.column->name));
  return unit.factor;
}

std::vector<Remark> number_remarks(const TableCell& cell, const NumberText& number,
                                   const TitledColumn& column) {
  const std::string& name = column.title.text;
  std::vector<Remark> remarks;
  if (number.thousands)
    remarks.push_back({fmt::format("Thousands set apart in '{}' were read as one number", name), cell.place});
  if (!number.unit.empty())
    remarks.push_back(
        {fmt::format("The unit '{}' behind numbers of '{}' was read", number.unit, name), cell.place});
  if (number.rounded)
    remarks.push_back(
        {fmt::format("Powers of ten in '{}' have three digits or fewer: a narrow column of a spreadsheet "
                     "rounds so; compare with the original",
                     name),
         cell.place});
  return remarks;
}

bool may_be_zero(const std::string& column) {
  return column == "poisson_ratio" || column == "layer_tilt_deg";
}

}  // namespace

DecimalMark decimal_mark(const BenchTable& table) {
  const Hints hints = hints_of(table);
  const TableCell *comma = hints.of(MarkHint::comma), *point = hints.of(MarkHint::point);
  if (comma && point)
    throw UserError(comma->place,
                    fmt::format("'{}' is written with a decimal comma, '{}' in line {} with a decimal point. "
                                "Write all decimals with a point.",
                                comma->text, point->text, point->place.line));
  if (comma) return DecimalMark::comma;
  const TableCell* either = hints.of(MarkHint::either_with_comma);
  if (point || !either) return DecimalMark::point;
  // Where commas are decimal marks, spreadsheets separate columns by semicolons.
  if (table.separator == ';') return DecimalMark::comma;
  refuse_either_way(*either);
}

BenchNumber bench_number(const TableCell& cell, const TitledColumn& column, DecimalMark mark) {
  const std::string& name = column.column->name;
  const NumberText number = read_number(cell.text, mark);
  if (!number.value)
    throw UserError(cell.place, fmt::format("'{}' in column '{}' is not a number. {}", shortened(cell.text),
                                            name, number.why_not));
  const double value = *number.value * unit_factor(cell, number, column);
  if (!(value > 0) && !may_be_zero(name))
    throw UserError(cell.place,
                    fmt::format("{} in column '{}' must be above zero. Correct it, or delete the line if "
                                "nothing was measured.",
                                cell.text, name));
  return {value, number.or_more, number_remarks(cell, number, column)};
}

}  // namespace crownproof
