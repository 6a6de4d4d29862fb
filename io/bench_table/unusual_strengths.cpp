// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/bench_table/unusual_strengths.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crownproof {
namespace {

/// Strengths of one group that differ less or more than any ceramic's (common practice, no source).
constexpr double suspiciously_alike = 1.005, suspiciously_apart = 6;

/// Below and above these loads are mostly in kN and sizes in cm: glass bears some tens of MPa, dense zirconia
/// bends at 500 to 2000 and is crushed at several thousand (common practice, no source).
constexpr double low_MPa = 10, high_bent_MPa = 3000, high_MPa = 6000;

/// Strengths no ceramic has: nearly all the same, or some many times the others.
std::vector<Remark> check_scatter(const std::vector<BenchRow>& rows, const std::vector<std::size_t>& group) {
  const BenchRow *low = nullptr, *high = nullptr;
  std::size_t n = 0;
  for (const std::size_t i : group) {
    if (rows[i].end != BenchEnd::broken) continue;
    ++n;
    if (!low || rows[i].strength_MPa < low->strength_MPa) low = &rows[i];
    if (!high || rows[i].strength_MPa > high->strength_MPa) high = &rows[i];
  }
  if (n < 3) return {};
  const double ratio = high->strength_MPa / low->strength_MPa;
  const std::string name = rows[group[0]].group;
  if (ratio < suspiciously_alike)
    return {
        {fmt::format(
             "Group '{}': all {} broken specimens bore nearly the same ({:g} to {:g} MPa), which ceramics do "
             "not: check that these are not limits or copied values",
             name, n, low->strength_MPa, high->strength_MPa),
         {}}};
  if (ratio > suspiciously_apart)
    return {{fmt::format(
                 "Group '{}': the strongest broken specimen (line {}: {:g} MPa) bore {:.0f} times the "
                 "weakest (line "
                 "{}: {:g} MPa), which specimens of one kind do not: compare these lines with the original",
                 name, high->place.line, high->strength_MPa, ratio, low->place.line, low->strength_MPa),
             {}}};
  return {};
}

std::vector<Remark> check_level(const std::vector<BenchRow>& rows, const std::vector<std::size_t>& group) {
  const auto weaker = [&](std::size_t a, std::size_t b) {
    return rows[a].strength_MPa < rows[b].strength_MPa;
  };
  const BenchRow& high = rows[*std::max_element(group.begin(), group.end(), weaker)];
  const bool bent = high.specimen && high.specimen->test != BenchTest::compression;
  if (high.strength_MPa < low_MPa)
    return {{fmt::format("Group '{}': strengths of {:.3g} MPa and less are those of very porous ceramics "
                         "only: check that "
                         "loads are in N (not kN) and sizes in mm",
                         high.group, high.strength_MPa),
             {}}};
  if (high.strength_MPa > (bent ? high_bent_MPa : high_MPa))
    return {{fmt::format("Group '{}': no ceramic is known to bear {:.0f} MPa: check the line and the units",
                         high.group, high.strength_MPa),
             high.place}};
  return {};
}

}  // namespace

std::vector<Remark> unusual_strengths(const std::vector<BenchRow>& rows,
                                      const std::vector<std::size_t>& group) {
  std::vector<Remark> remarks = check_scatter(rows, group);
  append(remarks, check_level(rows, group));
  return remarks;
}

}  // namespace crownproof
