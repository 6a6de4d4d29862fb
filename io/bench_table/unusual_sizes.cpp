// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/unusual_sizes.hpp"

namespace crownproof {
namespace {

/// Discs are 12 to 16 mm across, on 10 to 12 mm (ISO 6872, from memory); their radii lie below these.
constexpr double smallest_disc_mm = 10, smallest_support_mm = 8;

/// Spans are at least ten times the thickness (ISO 6872 and ASTM C1161, from memory); blunders lie far below.
constexpr double shortest_span = 6;

}  // namespace

std::vector<Remark> unusual_sizes(const BenchRow& row) {
  if (!row.specimen) return {};
  const BenchSpecimen& s = *row.specimen;
  if (s.test == BenchTest::piston_on_three_balls && s.diameter_mm < smallest_disc_mm &&
      s.support_diameter_mm < smallest_support_mm)
    return {
        {"Discs are 12 to 16 mm across on a support of 10 to 12 mm (ISO 6872, from memory), these much less: "
         "check that no radii are given for diameters",
         row.place}};
  if (s.test != BenchTest::bend_3_point && s.test != BenchTest::bend_4_point) return {};
  std::vector<Remark> remarks;
  if (s.thickness_mm > s.width_mm)
    remarks.push_back(
        {"Bars thicker than wide: 'thickness_mm' lies along the load; check that it is not exchanged with "
         "'width_mm'",
         row.place});
  if (s.span_mm < shortest_span * s.thickness_mm)
    remarks.push_back(
        {"The span is less than six times the thickness: check that all sizes are in mm", row.place});
  return remarks;
}

}  // namespace crownproof
