// SPDX-License-Identifier: AGPL-3.0-or-later
// How strong a material is, as bench tests found it.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "solver/bench/bench_test.hpp"
#include "solver/bench/interval.hpp"
#include "solver/material/fatigue.hpp"

namespace crownproof {

struct BenchSpecimen;

/// How well a bench test knows a strength: 90 % bounds.
struct StrengthBounds {
  Interval characteristic_MPa;
  Interval modulus;
  double correlation =
      0.313;  ///< of the two estimates (of their logarithms); this value for complete samples
};

/// Strength against one way of breaking.
struct Strength {
  double characteristic_MPa = 0;  ///< stress at 63.2 % fracture probability of the reference specimen
  double weibull_modulus = 0;     ///< 0: not known
  FlawKind flaws = FlawKind::volume;
  /// What it was measured on, shared by all who keep this strength; without it no fracture probability.
  std::shared_ptr<const BenchSpecimen> specimen = {};
  std::optional<StrengthBounds> bounds = {};
  /// What the case compares tensions with (solver/strength/compared_strength.hpp); nothing: the
  /// characteristic strength.
  std::optional<double> compared_MPa = {};
  /// Flaw populations told apart in the bench test, each with the strength it alone would give and the others
  /// suspended: the probability of fracture is theirs, the verdict on tension that of all together. Empty:
  /// one population, this. Of a body without layer planes of their own strength only.
  std::vector<Strength> populations = {};

  double judged_MPa() const { return compared_MPa.value_or(characteristic_MPa); }
};

/// Strength of a material. A body without layers uses `in_layer` only.
struct MaterialStrength {
  Strength in_layer;                     ///< of the body, measured with the layers along the tension
  std::optional<Strength> across_layer;  ///< of the layer planes, measured with the layers across the tension
  std::optional<FatigueData> fatigue = {};
};

}  // namespace crownproof
