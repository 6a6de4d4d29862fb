// SPDX-License-Identifier: AGPL-3.0-or-later
// The statistics of bench tests, held against what they say of themselves: samples of a known material drawn
// again and again. Figures of 2000 samples each are in docs/theory.md
// (tests/benchmarks/bench_statistics.cpp); here fewer, and where there are less than a thousand, their
// binomial error (two standard deviations) is allowed on top of the bars.
#include <cmath>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "tests/support/repeated_statistics.hpp"
#include "tests/support/verification_table.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

/// In percent: how far a share found in `count` samples may lie off.
double binomial(double share, int count) {
  return 200 * std::sqrt(share * (1 - share) / count);
}

/// The bar of how often 90 % bounds hold the truth, in percent.
struct Bar {
  double low, high;
};
constexpr Bar complete{88, 92}, with_suspended{86, 94};

/// Below a thousand samples their own scatter is allowed on top of the bar.
void compare(VerificationTable& table, const std::string& name, const Misses& m, const Bar& bar, int count) {
  const bool few = count < 1000;
  const double off = few ? binomial(0.9, count) : 0, off_side = few ? binomial(0.07, count) : 0;
  table.within(name + ": bounds hold the truth", "%", bar.low - off, bar.high + off, 100 * m.cover());
  table.within(name + ": lie above it", "%", 0, 7 + off_side, 100 * m.above);
  table.within(name + ": lie below it", "%", 0, 7 + off_side, 100 * m.below);
}

VerificationTable statistics_table(const std::string& title) {
  return {"bench_statistics", title, "repeated sampling from a known Weibull distribution"};
}

}  // namespace

TEST_CASE("90 % bounds of complete samples hold the truth in 88 to 92 %", "[bench_statistics][slow]") {
  VerificationTable table = statistics_table("Bench tests: bounds of complete samples");
  constexpr int count = 2000;
  for (const int n : {3, 5, 10, 30}) {
    const Coverage c = coverage({n, 0, count});
    compare(table, fmt::format("{} specimens, modulus", n), c.modulus, complete, count);
    compare(table, fmt::format("{} specimens, characteristic strength", n), c.characteristic, complete,
            count);
  }
}

TEST_CASE("90 % bounds of suspended samples hold the truth in 86 to 94 %, the modulus is right on average",
          "[bench_statistics][slow]") {
  VerificationTable table =
      statistics_table("Bench tests: bounds and bias of samples with suspended specimens");
  constexpr int count = 300;
  for (const Samples& s : {Samples{10, 0.5, count}, Samples{20, 0.3, count}, Samples{30, 0.7, count}}) {
    const std::string name = fmt::format("{} specimens, {:.0f} % suspended", s.n, 100 * s.suspended);
    const Coverage c = coverage(s);
    compare(table, name + ", modulus", c.modulus, with_suspended, count);
    compare(table, name + ", characteristic strength", c.characteristic, with_suspended, count);
    // m^ scatters by about 0.4 of m in the worst of these: 0.08 is four standard errors of the mean.
    table.within(name + ": corrected modulus over the true one", "", 0.92, 1.08, c.corrected_ratio);
  }
}

TEST_CASE("equal groups are called different at 5 % in 4 to 6 % of pairs", "[bench_statistics][slow]") {
  VerificationTable table = statistics_table("Bench tests: equal groups called different at 5 %");
  for (const int n : {5, 10, 30}) {
    table.within(fmt::format("{} a group, whole distribution", n), "%", 4, 6,
                 100 * type_one_error({n, 0, 2000}, Common::distribution));
    table.within(fmt::format("{} a group, modulus", n), "%", 4, 6,
                 100 * type_one_error({n, 0, 2000}, Common::modulus));
  }
  table.within("5 a group, characteristic strength", "%", 4 - binomial(0.05, 150), 6 + binomial(0.05, 150),
               100 * type_one_error({5, 0, 150}, Common::characteristic));
  table.within("10 a group, 40 % suspended", "%", 4 - binomial(0.05, 200), 6 + binomial(0.05, 200),
               100 * type_one_error({10, 0.4, 200}, Common::distribution));
}

TEST_CASE("of six equal groups a difference is claimed in at most 6 % of tables",
          "[bench_statistics][slow]") {
  VerificationTable table = statistics_table("Bench tests: six equal groups of ten");
  table.within("at least one difference claimed", "%", 0, 6, 100 * any_claim_among_six({10, 0, 2000}));
}

TEST_CASE("goodness of fit with suspended specimens is poor as often as it says",
          "[bench_statistics][slow]") {
  VerificationTable table = statistics_table("Bench tests: goodness of fit with suspended specimens");
  table.within("true samples of 20, 40 % suspended, below 0.05", "%", 5 - binomial(0.05, 300),
               5 + binomial(0.05, 300), 100 * poor_fits({20, 0.4, 300}));
}

TEST_CASE("3 to 9 specimens never give a crown a smaller upper bound than 30 do",
          "[bench_statistics][slow]") {
  // On average over 200 pairs, at tensions of 25 to 80 % of the characteristic strength.
  for (const double stress : {0.25, 0.4, 0.6, 0.8})
    for (int n = 3; n <= 9; ++n) {
      INFO(n << " specimens at " << stress);
      const CrownBounds c = crown_bounds({n, 0, 200}, stress);
      CHECK(c.few > c.thirty);
      CHECK(c.few_geometric > c.thirty_geometric);
    }
}
