// SPDX-License-Identifier: AGPL-3.0-or-later
// Weibull fits against public tables, the NIST/SEMATECH handbook and independent fits.
#include "solver/bench/weibull.hpp"

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "tests/support/nist_data.hpp"

using namespace crownproof;
using namespace crownproof::test;

namespace {

std::vector<Specimen> handbook_units(bool with_suspended) {
  std::vector<Specimen> units = all_broken({54, 187, 216, 240, 244, 335, 361, 373, 375, 386});
  if (with_suspended) units.insert(units.end(), 10, {500, false});
  return units;
}

void check_fit(const std::vector<Specimen>& specimens, std::size_t n, double modulus, double characteristic) {
  REQUIRE(specimens.size() == n);
  const WeibullFit fit = fit_weibull(specimens);
  CHECK(fit.modulus == Approx(modulus).epsilon(1e-5));  // the references are printed with six figures
  CHECK(fit.characteristic_MPa == Approx(characteristic).epsilon(1e-5));
}

}  // namespace

TEST_CASE("fits of the NIST strength tables agree with independent fits", "[weibull]") {
  check_fit(silicon_nitride(), 480, 10.0676, 682.651);
  check_fit(silicon_nitride(1), 240, 14.0397, 715.767);
  check_fit(silicon_nitride(2), 240, 9.78843, 639.125);
  check_fit(silicon_nitride(1, 1), 30, 14.8897, 718.824);
  check_fit(silicon_nitride(2, 1), 30, 9.09284, 627.851);
  std::vector<Specimen> rupture, strength;
  for (const auto& row : read_numbers("rupture_20.csv")) rupture.push_back({row[0], true});
  for (const auto& row : read_numbers("specimen_strength_100.csv")) strength.push_back({row[0], true});
  check_fit(rupture, 20, 8.1176, 55.8388);
  check_fit(strength, 100, 3.01492, 32.3715);
}

TEST_CASE("suspended units: NIST/SEMATECH handbook 8.4.1.3", "[weibull]") {
  // itl.nist.gov/div898/handbook/apr/section4/apr413.htm prints 1.7208, 606.5280, |log likelihood| 75.135;
  // the longer figures are an independent fit of the same data.
  const WeibullFit fit = fit_weibull(handbook_units(true));
  CHECK(fit.modulus == Approx(1.72079726).epsilon(1e-8));
  CHECK(fit.characteristic_MPa == Approx(606.527558).epsilon(1e-8));
  CHECK(fit.log_likelihood == Approx(-75.134618).epsilon(1e-8));
  CHECK(fit.n_broken == 10);
  CHECK(fit.n_suspended == 10);
  SECTION("forgetting the suspended units gives quite another answer") {
    const WeibullFit broken_only = fit_weibull(handbook_units(false));
    CHECK(broken_only.modulus == Approx(3.05966417).epsilon(1e-8));
    CHECK(broken_only.characteristic_MPa == Approx(308.529589).epsilon(1e-8));
  }
}

TEST_CASE("competing flaws: each population sees the other as suspended", "[weibull]") {
  // Invented data; reference fits by an independent program.
  std::vector<ClassifiedSpecimen> specimens;
  for (const double s : {412, 455, 478, 490, 503, 515, 528, 540, 561, 583})
    specimens.push_back({s, "surface"});
  for (const double s : {398, 437, 469, 499, 533}) specimens.push_back({s, "volume"});
  const auto fits = fit_competing(specimens);
  REQUIRE(fits.size() == 2);
  CHECK(fits.at("surface").fit->modulus == Approx(13.37412785).epsilon(1e-6));
  CHECK(fits.at("surface").fit->characteristic_MPa == Approx(536.300778).epsilon(1e-6));
  CHECK(fits.at("surface").fit->log_likelihood == Approx(-54.564457).epsilon(1e-6));
  CHECK(fits.at("volume").fit->modulus == Approx(7.95697127).epsilon(1e-6));
  CHECK(fits.at("volume").fit->characteristic_MPa == Approx(585.612677).epsilon(1e-6));
  CHECK(fits.at("volume").fit->log_likelihood == Approx(-34.529588).epsilon(1e-6));
  std::vector<Specimen> pooled;
  for (const auto& s : specimens) pooled.push_back({s.stress_MPa, true});
  CHECK(fit_weibull(pooled).modulus == Approx(11.06790124).epsilon(1e-6));
  CHECK(fit_weibull(pooled).characteristic_MPa == Approx(516.218356).epsilon(1e-6));
}

TEST_CASE("a flaw seen once, on the strongest specimen, leaves the other flaws their fits", "[weibull]") {
  // Its likelihood grows for ever with the modulus: the one specimen broke at the highest stress of all.
  const auto fits = fit_competing({{500, "surface"}, {520, "surface"}, {545, "surface"}, {600, "volume"}});
  REQUIRE(fits.at("surface").fit);
  const WeibullFit alone = fit_weibull({{500, true}, {520, true}, {545, true}, {600, false}});
  CHECK(fits.at("surface").fit->modulus == alone.modulus);
  CHECK_FALSE(fits.at("volume").fit);
  CHECK(fits.at("volume").n_broken == 1);
  CHECK_THAT(fits.at("volume").why_not, Catch::Contains("Test more specimens"));
}

TEST_CASE("a fit does not depend on the unit or the order", "[weibull]") {
  std::vector<Specimen> units = handbook_units(true), scaled;
  for (auto s = units.rbegin(); s != units.rend(); ++s) scaled.push_back({s->stress_MPa * 1e6, s->broken});
  const WeibullFit a = fit_weibull(units), b = fit_weibull(scaled);
  CHECK(b.modulus == Approx(a.modulus).epsilon(1e-12));
  CHECK(b.characteristic_MPa == Approx(1e6 * a.characteristic_MPa).epsilon(1e-12));
}

TEST_CASE("probability, its inverse and the mean agree", "[weibull]") {
  const WeibullFit fit{700, 10, 0, 30, 0};
  CHECK(fit.probability(700) == Approx(1 - std::exp(-1.0)));
  CHECK(fit.probability(0) == 0);
  CHECK(fit.probability(-50) == 0);
  CHECK(fit.probability(fit.strength_at(0.05)) == Approx(0.05).epsilon(1e-12));
  CHECK(fit.mean_MPa() == Approx(665.945).epsilon(1e-5));  // 700 Gamma(1.1), Gamma(1.1) = 0.9513507699
}

TEST_CASE("samples that cannot be fitted are refused in words", "[weibull]") {
  CHECK_THROWS_WITH(fit_weibull({{500, false}, {500, false}}),
                    Catch::Contains("None of the specimens broke"));
  CHECK_THROWS_WITH(fit_weibull({}), Catch::Contains("None of the specimens broke"));
  CHECK_THROWS_WITH(fit_weibull({{500, true}, {500, true}}), Catch::Contains("same strength"));
  CHECK_THROWS_WITH(fit_weibull({{500, true}, {-1, true}}), Catch::Contains("above zero"));
  CHECK_THROWS_AS(fit_weibull({{500, true}, {NAN, true}}), ModelError);
}

TEST_CASE("one broken specimen among higher suspended ones still has a largest likelihood", "[weibull]") {
  const std::vector<Specimen> specimens{{900, true}, {1000, false}, {1000, false}, {1000, false}};
  const WeibullFit fit = fit_weibull(specimens);
  for (const double step : {0.99, 1.01}) {
    CHECK(log_likelihood(specimens, fit.characteristic_MPa * step, fit.modulus) < fit.log_likelihood);
    CHECK(log_likelihood(specimens, fit.characteristic_MPa, fit.modulus * step) < fit.log_likelihood);
  }
}

TEST_CASE("plotting ranks of complete and suspended samples", "[weibull]") {
  const auto complete = probability_plot(all_broken({3, 1, 2, 4}));
  REQUIRE(complete.size() == 4);
  for (int i = 0; i < 4; ++i) CHECK(complete[i].probability == Approx((i + 0.5) / 4));
  // Johnson (1964): after the suspended one the order grows by (N + 1 - 1) / (1 + 2 left) = 4/3.
  const auto mixed = probability_plot({{1, true}, {2, false}, {3, true}, {4, true}});
  REQUIRE(mixed.size() == 3);
  CHECK(mixed[0].probability == Approx(0.5 / 4));
  CHECK(mixed[1].probability == Approx((1 + 4.0 / 3 - 0.5) / 4));
  CHECK(mixed[2].probability == Approx((1 + 8.0 / 3 - 0.5) / 4));
}
