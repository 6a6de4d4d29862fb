// SPDX-License-Identifier: AGPL-3.0-or-later

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "mesh/model_error.hpp"
#include "solver/material/fatigue.hpp"
#include "solver/material/lifetime.hpp"
#include "solver/material/strength_loss.hpp"

using namespace crownproof;

TEST_CASE("time to fracture under constant stress", "[lifetime]") {
  // Veneering ceramic of Griggs et al. 2011 (Dent. Mater. 27:364): n = 35.9, ln B = -11.1; inert strength 75
  // MPa (invented). B rounded to 1.51e-5 gives the values with four figures.
  const SlowCrackGrowth growth{35.9, std::exp(-11.1)};
  CHECK(static_lifetime_s(growth, 75, 40) == Approx(16.98).epsilon(3e-4));
  CHECK(static_lifetime_s(growth, 75, 35) == Approx(2051).epsilon(3e-4));
  CHECK(static_lifetime_s(growth, 75, 30) == Approx(5.19e5).epsilon(1e-3));
}

TEST_CASE("waveform factors", "[lifetime]") {
  struct Row {
    double n, sine, pulse;
  };
  for (const Row& r : std::vector<Row>{{16, .1399, .1964},
                                       {20, .1254, .1762},
                                       {30, .1026, .1445},
                                       {40, .0889, .1254},
                                       {76, .0646, .0912}}) {
    CHECK(waveform_factor(Waveform::full_sine, r.n) == Approx(r.sine).margin(6e-5));
    CHECK(waveform_factor(Waveform::half_sine_pulse, r.n) == Approx(r.pulse).margin(6e-5));
    // By quadrature of the waveforms themselves.
    double sine = 0, pulse = 0;
    const int steps = 20000;
    for (int i = 0; i < steps; ++i) {
      const double t = (i + 0.5) / steps;
      sine += std::pow(0.5 - 0.5 * std::cos(2 * std::numbers::pi * t), r.n) / steps;
      pulse += std::pow(std::sin(std::numbers::pi * t), r.n) / steps;
    }
    CHECK(waveform_factor(Waveform::full_sine, r.n) == Approx(sine).epsilon(1e-8));
    CHECK(waveform_factor(Waveform::half_sine_pulse, r.n) == Approx(pulse).epsilon(1e-8));
  }
  CHECK(waveform_factor(Waveform::constant, 20) == 1);
}

TEST_CASE("n and B from stress-rate tests, to a lifetime, and back", "[lifetime]") {
  const SlowCrackGrowth truth{22.5, 350};
  const double inert = 480;
  std::vector<RateTest> tests;
  for (const double rate : {0.1, 1.0, 10.0, 100.0})
    tests.push_back({rate, strength_at_rate(truth, inert, rate)});
  const SlowCrackGrowth found = growth_from_rates(tests, inert);
  CHECK(found.n == Approx(22.5).epsilon(1e-10));
  CHECK(found.B_MPa2_s == Approx(350).epsilon(1e-8));
  const double seconds = static_lifetime_s(found, inert, 200);
  CHECK(std::pow(seconds * std::pow(200, found.n) / found.B_MPa2_s, 1 / (found.n - 2)) ==
        Approx(inert).epsilon(1e-10));
  // Stress that breaks after that time: 200 MPa, up to the part of fast fracture at the end.
  CHECK(strength_after(found, inert, seconds) == Approx(200).epsilon(1e-4));
  // Numerically grown crack: ds_i/dt of dynamic loading agrees with the closed form, d(s_i^(n-2)) = -s^n/B
  // dt.
  const double rate = 1;
  double left = 1, t = 0;  // (s_i / inert)^(n-2)
  const double dt = 1e-3;
  while (left > std::pow(rate * t / inert, truth.n - 2)) {
    left -= std::pow(rate * (t + dt / 2) / inert, truth.n) * inert * inert / truth.B_MPa2_s * dt;
    t += dt;
  }
  CHECK(rate * t == Approx(strength_at_rate(truth, inert, rate)).epsilon(1e-3));
}

TEST_CASE("equivalent stress and strength after a time are inverse", "[lifetime]") {
  for (const double n : {16.0, 35.9, 76.0}) {
    const SlowCrackGrowth growth{n, 1.0};
    for (const double seconds : {0.0, 1.0, 1e4, 1e9}) {
      const double s = strength_after(growth, 600, seconds);
      CHECK(equivalent_inert_stress(growth, s, seconds) == Approx(600).epsilon(1e-10));
      CHECK(s <= 600 * (1 + 1e-12));
    }
  }
  CHECK(equivalent_inert_stress({20, 1}, -5, 10) == 0);
}

TEST_CASE("strength-probability-time lines fall with slope -1/n", "[lifetime]") {
  const auto lines = spt_diagram(500, 10, 20, {0.05, 0.632}, {1, 3.156e7});
  REQUIRE(lines.size() == 2);
  // One second to one year: (3.156e7)^(-1/20) = 0.422.
  for (const auto& line : lines) CHECK(line.stress_MPa[1] / line.stress_MPa[0] == Approx(0.422).margin(6e-4));
  CHECK(lines[0].stress_MPa[0] == Approx(500 * std::pow(-std::log(0.95), 0.1)));
  CHECK(lifetime_modulus(10, 20) == Approx(10.0 / 18));
  // A test at a constant rate counts as t_f/(n+1) seconds at its end: both closed forms say so.
  const SlowCrackGrowth growth{20, 5};
  const double f = strength_at_rate(growth, 500, 10);
  CHECK(one_second_strength(f, f / 10, 20) ==
        Approx(std::pow(growth.B_MPa2_s * std::pow(500, 18), 1 / 20.0)).epsilon(1e-10));
}

TEST_CASE("strength after years: static and cyclic exponents apart", "[strength_loss]") {
  Chewing ten_years;
  ten_years.years = 10;
  FatigueData fatigue;
  fatigue.n_static = 76;
  const StrengthLoss still = strength_loss(fatigue, 1000, ten_years);
  const double seconds = 2.5e6 * 0.1 * waveform_factor(Waveform::half_sine_pulse, 76);
  CHECK(still.factor == Approx(std::pow(15.0 / 77 / seconds, 1 / 76.0)).epsilon(1e-10));
  CHECK(still.cause == LossCause::slow_crack_growth);
  fatigue.n_cyclic = 25;
  const StrengthLoss cyclic = strength_loss(fatigue, 1000, ten_years);
  CHECK(cyclic.factor == Approx(std::pow(2.5e6, -1 / 25.0)).epsilon(1e-10));
  CHECK(cyclic.factor < still.factor);
  CHECK(cyclic.cause == LossCause::cyclic_fatigue);
  ten_years.cycles_per_year = 500000;
  CHECK(strength_loss(fatigue, 1000, ten_years).factor < cyclic.factor);
  ten_years.years = 0;
  CHECK(strength_loss(fatigue, 1000, ten_years).factor == 1);
  CHECK_THROWS_AS(strength_loss({}, 1000, ten_years), ModelError);
  fatigue.n_cyclic = 1.5;
  CHECK_THROWS_AS(strength_loss(fatigue, 1000, ten_years), ModelError);
}

TEST_CASE("crack growth is refused without sense", "[lifetime]") {
  CHECK_THROWS_AS(static_lifetime_s({2, 1}, 500, 100), ModelError);
  CHECK_THROWS_AS(growth_from_rates({{1, 100}}, 500), ModelError);
  CHECK_THROWS_AS(growth_from_rates({{1, 100}, {1, 101}}, 500), ModelError);
  CHECK_THROWS_AS(growth_from_rates({{1, 100}, {10, 90}}, 500), ModelError);
}
