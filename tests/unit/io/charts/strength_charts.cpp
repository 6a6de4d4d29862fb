// SPDX-License-Identifier: AGPL-3.0-or-later

#include <algorithm>

#include <catch2/catch.hpp>

#include "io/charts/strength_charts.hpp"
#include "solver/material/fatigue.hpp"
#include "solver/model/strength.hpp"

using namespace crownproof;
using Catch::Contains;

namespace {

MaterialStrength printed() {
  MaterialStrength s{.in_layer = {.characteristic_MPa = 1000, .weibull_modulus = 9},
                     .across_layer = Strength{.characteristic_MPa = 700, .weibull_modulus = 7}};
  s.fatigue = FatigueData{.n_static = 76, .B_MPa2_s = {}, .n_cyclic = 30};
  return s;
}

std::vector<std::string> names(const std::vector<ChartFile>& files) {
  std::vector<std::string> all;
  for (const ChartFile& file : files) all.push_back(file.name);
  return all;
}

}  // namespace

TEST_CASE("strength against angle: measured ends, an assumption between", "[strength_charts]") {
  const auto files = angle_charts("printed", printed(), {.shear_divisor = 0.845});
  REQUIRE(names(files) ==
          std::vector<std::string>{"strength_against_angle.csv", "strength_against_angle.svg"});
  CHECK_THAT(files[0].content, Contains("\r\n0,700,opens between layers,700\r\n") &&
                                   Contains("\r\n90,1000,breaks across the body,1000\r\n"));
  CHECK_THAT(files[1].content,
             Contains("assumption") && Contains("Hankinson") && Contains("Batdorf") && Contains("0.845"));
  CHECK_THAT(angle_table_text(1000, 700, {}), Contains("Only the ends, 0 and 90 degrees, are measured"));
  MaterialStrength milled = printed();
  milled.across_layer.reset();
  CHECK(angle_charts("milled", milled, {}).empty());
}

TEST_CASE("strength, probability and time: a chart for each strength", "[strength_charts]") {
  const auto files = time_charts("printed", printed(), {});
  CHECK(names(files) == std::vector<std::string>{"strength_probability_time.csv",
                                                 "strength_probability_time_in_layers.svg",
                                                 "strength_probability_time_across_layers.svg"});
  // Header, two strengths, two kinds of load, four probabilities, forty times.
  CHECK(std::count(files[0].content.begin(), files[0].content.end(), '\n') == 1 + 2 * 2 * 4 * 40);
  CHECK_THAT(files[1].content, Contains("63.2 % broken, chewing") && Contains("50 y"));
  MaterialStrength unknown = printed();
  unknown.fatigue.reset();
  CHECK(time_charts("unknown", unknown, {}).empty());
}
