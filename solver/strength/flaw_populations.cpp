// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/flaw_populations.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "mesh/model_error.hpp"
#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/model/strength.hpp"
#include "solver/strength/breaking.hpp"
#include "solver/strength/mechanism.hpp"
#include "solver/strength/specimen_size.hpp"

namespace crownproof {
namespace {

/// Bounds that can be computed with. A very low modulus is held at one that hardly tells strong specimens
/// from weak ones: to leave the bounds out instead would make the worst-known material the surest.
std::optional<StrengthBounds> usable(std::optional<StrengthBounds> bounds) {
  constexpr double lowest_modulus = 0.1;
  if (!bounds || !std::isfinite(bounds->modulus.high) || !(bounds->characteristic_MPa.low > 0))
    return std::nullopt;
  bounds->modulus.low = std::max(bounds->modulus.low, lowest_modulus);
  return bounds;
}

/// Layers lie flat in the specimen for the strength within them and upright in that for the one across them.
Vec3 normal_in_layer_specimen(const MaterialStrength& s) {
  return layer_normal_of(*s.in_layer.specimen, LayerNormal::thickness);
}
Vec3 normal_in_across_specimen(const MaterialStrength& s) {
  return layer_normal_of(*s.across_layer->specimen, LayerNormal::length);
}

FlawPopulation population(Mechanism mechanism, const Strength& strength, const StressMeasure& measure,
                          const StressMeasure& bench_measure) {
  FlawPopulation p{.mechanism = mechanism,
                   .measure = measure,
                   .strength = strength,
                   .moduli = {strength.weibull_modulus},
                   .bench_sizes = {}};
  p.strength.bounds = usable(strength.bounds);
  if (p.strength.bounds) {
    p.moduli.push_back(p.strength.bounds->modulus.low);
    p.moduli.push_back(p.strength.bounds->modulus.high);
  }
  p.bench_sizes = effective_sizes(*strength.specimen, p.moduli, strength.flaws, bench_measure);
  return p;
}

/// Risk of a population in the bench specimen of another strength, at the median strength of that specimen,
/// over the ln 2 that all flaws together have there. Its own share is taken as 1.
double part_in_specimen(const FlawPopulation& flaws, const Strength& other, const StressMeasure& measure) {
  const double size = effective_size(*other.specimen, flaws.moduli[0], flaws.strength.flaws, measure);
  const double median = other.characteristic_MPa * std::pow(std::numbers::ln2, 1 / other.weibull_modulus);
  return size / flaws.bench_sizes[0] * std::pow(median / flaws.strength.characteristic_MPa, flaws.moduli[0]) /
         std::numbers::ln2;
}

/// Shares of two populations, each of its own specimen: body + layers_there * layers = 1 in the one specimen,
/// body_there * body + layers = 1 in the other.
void share_specimens(FlawPopulation& body, FlawPopulation& layers, double body_there, double layers_there) {
  const bool body_alone = body_there >= 1, layers_alone = layers_there >= 1;
  if (body_alone && layers_alone) return;  // the tests contradict each other: the worse of both
  if (body_alone) {
    layers.bench_share = 0;
  } else if (layers_alone) {
    body.bench_share = 0;
  } else {
    const double determinant = 1 - body_there * layers_there;
    body.bench_share = (1 - layers_there) / determinant;
    layers.bench_share = (1 - body_there) / determinant;
  }
}

}  // namespace

std::optional<NoProbability> why_no_probability(const Strength& strength) {
  if (!(strength.weibull_modulus > 0)) return NoProbability::no_modulus;
  if (!(strength.characteristic_MPa > 0)) return NoProbability::no_strength;
  if (!strength.specimen) return NoProbability::no_specimen;
  if (strength.specimen->test == BenchTest::compression) return NoProbability::compressive;
  if (why_no_specimen(*strength.specimen)) return NoProbability::impossible_specimen;
  return std::nullopt;
}

std::optional<NoProbability> why_no_probability(const RegionMaterial& material) {
  const MaterialStrength& strength = *material.material.strength;
  if (const auto why = why_no_probability(strength.in_layer)) return why;
  if (!material.layered || !strength.across_layer) return std::nullopt;
  if (const auto why = why_no_probability(*strength.across_layer)) return why;
  if (!layers_feel_test(*strength.across_layer->specimen, LayerNormal::length))
    return NoProbability::layers_along_specimen;
  return std::nullopt;
}

std::vector<FlawPopulation> flaw_populations(const RegionMaterial& material) {
  if (why_no_probability(material))
    throw ModelError(
        "No probability of fracture follows from this strength. It takes a strength above zero with its "
        "Weibull modulus, and the bench specimen it was measured on, not in compression; a strength across "
        "layers a specimen whose layers lie across the tension.");
  const MaterialStrength& s = *material.material.strength;
  const bool within_layers = layers_are_stronger(material);
  const auto body_feels = [&](const Vec3& normal) {
    return within_layers ? in_layer_tensions(normal) : principal_tensions();
  };
  const auto layers_feel = [&](const Vec3& normal) {
    return layer_plane_tensions(normal, material.layer_planes);
  };
  const Vec3 normal = material.axes.col(2), normal_in = normal_in_layer_specimen(s);
  FlawPopulation body =
      population(Mechanism::breaks_across_body, s.in_layer, body_feels(normal), body_feels(normal_in));
  if (!material.layered || !s.across_layer) {
    if (s.in_layer.populations.empty()) return {body};
    std::vector<FlawPopulation> told_apart;
    for (const Strength& flaws : s.in_layer.populations)
      told_apart.push_back(
          population(Mechanism::breaks_across_body, flaws, body_feels(normal), body_feels(normal_in)));
    return told_apart;
  }
  const Vec3 normal_across = normal_in_across_specimen(s);
  FlawPopulation layers = population(Mechanism::opens_between_layers, *s.across_layer, layers_feel(normal),
                                     layers_feel(normal_across));
  if (material.layer_planes.slide) layers.sliding = sliding_tensions(normal, material.layer_planes);
  share_specimens(body, layers, part_in_specimen(body, *s.across_layer, body_feels(normal_across)),
                  part_in_specimen(layers, s.in_layer, layers_feel(normal_in)));
  return {body, layers};
}

}  // namespace crownproof
