// SPDX-License-Identifier: AGPL-3.0-or-later
// How often the statistics of `crownproof bench` are right, at full length: bench_statistics [SAMPLES
// [PART [SPECIMENS SUSPENDED]]], PART one of bounds, low_strengths, comparisons, crowns; with the last two,
// of bounds and crowns the one row only (70 % suspended: 0.7). Prints Markdown tables; with 2000 samples an
// hour. Standard errors with 2000: 0.7 % of a coverage of 90 %, 0.5 % of an error of 5 %.
#include <cstdio>
#include <cstdlib>

#include <fmt/format.h>

#include "tests/support/repeated_statistics.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

void print(const std::string& line) {
  std::fputs((line + "\n").c_str(), stdout);
  std::fflush(stdout);
}

std::string misses(const Misses& m) {
  return fmt::format("{:.1f} % ({:.1f} / {:.1f})", 100 * m.cover(), 100 * m.above, 100 * m.below);
}

/// Which rows of a table are wanted.
struct Row {
  int specimens = 0;  ///< 0: all
  double suspended = 0;
  bool wanted(int n, double share) const { return specimens == 0 || (n == specimens && share == suspended); }
};

void print_coverage(int count, const Row& row) {
  print(
      "| specimens | suspended | fitted | m / true | corrected | bounds of m hold (miss above / below) | of "
      "s0 |");
  print("|---|---|---|---|---|---|---|");
  for (const int n : {3, 5, 10, 20, 30})
    for (const double suspended : {0.0, 0.3, 0.5, 0.7}) {
      if ((n < 10 && suspended > 0) || !row.wanted(n, suspended)) continue;
      const Coverage c = coverage({n, suspended, count});
      print(fmt::format("| {} | {:.0f} % | {} | {:.3f} | {:.3f} | {} | {} |", n, 100 * suspended, c.fitted,
                        c.modulus_ratio, c.corrected_ratio, misses(c.modulus), misses(c.characteristic)));
    }
}

void print_low_strengths(int count) {
  print(
      "\n| specimens | suspended | bounds of the 1 % strength hold | of the 5 % strength "
      "|\n|---|---|---|---|");
  for (const int n : {10, 30})
    for (const double suspended : {0.0, 0.5}) {
      const LowCoverage c = low_coverage({n, suspended, count / 2});
      print(fmt::format("| {} | {:.0f} % | {} | {} |", n, 100 * suspended, misses(c.one_percent),
                        misses(c.five_percent)));
    }
}

void print_comparisons(int count) {
  print(
      "\n| specimens a group | suspended | distribution | modulus | characteristic strength "
      "|\n|---|---|---|---|---|");
  for (const int n : {5, 10, 30})
    for (const double suspended : {0.0, 0.4}) {
      if (n == 5 && suspended > 0) continue;
      print(fmt::format("| {} | {:.0f} % | {:.2f} % | {:.2f} % | {:.2f} % |", n, 100 * suspended,
                        100 * type_one_error({n, suspended, count}, Common::distribution),
                        100 * type_one_error({n, suspended, count}, Common::modulus),
                        100 * type_one_error({n, suspended, count}, Common::characteristic)));
    }
  print(fmt::format("\nSix equal groups of 10: at least one difference claimed in {:.2f} % of {} tables.",
                    100 * any_claim_among_six({10, 0, count}), count));
  print(fmt::format("Six equal groups of 10, 30 % suspended: {:.2f} % of {} tables.",
                    100 * any_claim_among_six({10, 0.3, count / 4}), count / 4));
  print(fmt::format("Goodness of fit below 0.05 of true Weibull samples of 20, 40 % suspended: {:.2f} %.",
                    100 * poor_fits({20, 0.4, count})));
}

void print_crowns(const Row& row) {
  print(
      "\n| specimens | suspended | stress / s0 | mean upper bound, few / thirty | geometric mean, few / "
      "thirty |\n"
      "|---|---|---|---|---|");
  for (const double suspended : {0.0, 0.3})
    for (const double stress : {0.25, 0.4, 0.6, 0.8})
      for (int n = 3; n <= 9; ++n) {
        if ((suspended > 0 && n < 5) || !row.wanted(n, suspended)) continue;
        const CrownBounds c = crown_bounds({n, suspended, 200}, stress);
        print(fmt::format("| {} | {:.0f} % | {} | {:.3g} / {:.3g} | {:.3g} / {:.3g} |", n, 100 * suspended,
                          stress, c.few, c.thirty, c.few_geometric, c.thirty_geometric));
      }
}

}  // namespace

int main(int argc, char** argv) {
  const int count = argc > 1 ? std::atoi(argv[1]) : 2000;
  const std::string part = argc > 2 ? argv[2] : "all";
  const Row row = argc > 4 ? Row{std::atoi(argv[3]), std::atof(argv[4])} : Row{};
  const auto asked = [&](const char* name) { return part == "all" || part == name; };
  if (asked("bounds")) print_coverage(count, row);
  if (asked("low_strengths")) print_low_strengths(count);
  if (asked("comparisons")) print_comparisons(count);
  if (asked("crowns")) print_crowns(row);
}
