// SPDX-License-Identifier: AGPL-3.0-or-later
// A strength as it is written in a materials file: the value, its scatter, the bench test it comes from and
// how well that test knows it; and what is known of fatigue.
#pragma once

#include <optional>
#include <string>

#include "io/fields/field.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/model/strength.hpp"

namespace crownproof {

/// How well a bench test knows a strength: 90 % bounds.
struct StrengthBoundsData {
  std::vector<double> characteristic_MPa, weibull_modulus;  ///< low, high
  double correlation = 0.313;
};

/// One of the flaw populations that a bench test told apart by fractography.
struct FlawStrengthData {
  std::string name;
  double characteristic_MPa = 0;  ///< of the specimen, if it had these flaws alone
  double weibull_modulus = 0;
  FlawKind flaws = FlawKind::volume;
  std::optional<StrengthBoundsData> bounds_90_percent;
};

/// Strength with the specimen it was measured on; without the specimen a strength means little.
struct StrengthData {
  double characteristic_MPa = 0;  ///< stress at 63.2 % fracture probability
  std::optional<double> weibull_modulus;
  std::string specimen, environment;        ///< in words
  std::optional<BenchSpecimen> bench_test;  ///< in numbers: needed for a probability of fracture
  FlawKind flaws = FlawKind::volume;
  std::optional<StrengthBoundsData> bounds_90_percent;
  std::vector<FlawStrengthData> flaw_populations;  ///< if told apart: the probability of fracture is theirs
};

/// The keys of a strength, of a bench test, of fatigue.
Section<StrengthData> strength_data_section();
Section<BenchSpecimen> bench_test_section();
Section<FatigueData> fatigue_section();

/// The word for a bench test in files: 3_point_bending, ...
const std::vector<std::pair<std::string, BenchTest>>& bench_test_words();
std::string bench_test_word(BenchTest test);

/// The word for a layer normal in files: thickness, ...
const std::vector<std::pair<std::string, std::optional<LayerNormal>>>& layer_normal_words();
std::string layer_normal_word(LayerNormal normal);

/// Keys of the sizes of a specimen (mm), in the order of the reference.
const std::vector<std::pair<std::string, double BenchSpecimen::*>>& bench_sizes();

/// The strength as the solver sees it.
Strength to_strength(const StrengthData& data);

}  // namespace crownproof
