// SPDX-License-Identifier: AGPL-3.0-or-later
// The materials file that comes out of bench tests.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "io/bench/bench_report.hpp"

namespace crownproof {
namespace {

std::string test_word(BenchTest test) {
  const auto& words = bench_test_words();
  return std::find_if(words.begin(), words.end(), [&](const auto& w) { return w.second == test; })->first;
}

std::string bench_test_yaml(const BenchSpecimen& s) {
  std::string text = "{test: " + test_word(s.test);
  const auto add = [&](const char* key, double value) {
    if (value > 0) text += fmt::format(", {}: {:.6g}", key, value);
  };
  add("width_mm", s.width_mm);
  add("thickness_mm", s.thickness_mm);
  add("length_mm", s.length_mm);
  add("span_mm", s.span_mm);
  add("inner_span_mm", s.inner_span_mm);
  add("diameter_mm", s.diameter_mm);
  add("support_diameter_mm", s.support_diameter_mm);
  add("loading_diameter_mm", s.loading_diameter_mm);
  add("poisson_ratio", s.poisson);
  return fmt::format("{}}}", text);
}

std::string strength_yaml(const char* key, const BenchGroupResult& g) {
  if (const auto why = why_no_material(g))
    throw UserError(fmt::format("Group '{}' cannot be the source of a material: {}", g.group.name, *why));
  const double modulus =
      g.bounds && g.bounds->unbiased_modulus ? *g.bounds->unbiased_modulus : g.fit->modulus;
  std::string text = fmt::format(
      "    {}:\n      characteristic_MPa: {:.6g}\n      weibull_modulus: {:.6g}\n"
      "      bench_test: {}\n",
      key, g.fit->characteristic_MPa, modulus, bench_test_yaml(*g.specimen));
  if (g.bounds && std::isfinite(g.bounds->modulus.high) && std::isfinite(g.bounds->characteristic_MPa.high))
    text += fmt::format(
        "      bounds_90_percent: {{characteristic_MPa: [{:.6g}, {:.6g}], weibull_modulus: [{:.6g}, {:.6g}], "
        "correlation: {:.4f}}}\n",
        g.bounds->characteristic_MPa.low, g.bounds->characteristic_MPa.high, g.bounds->modulus.low,
        g.bounds->modulus.high, g.bounds->correlation);
  return text;
}

std::string elastic_yaml(const MaterialData& like) {
  if (like.youngs_modulus_GPa)
    return fmt::format("    youngs_modulus_GPa: {}\n    poisson_ratio: {}\n", *like.youngs_modulus_GPa,
                       *like.poisson_ratio);
  if (const auto& t = like.transversely_isotropic)
    return fmt::format(
        "    transversely_isotropic: {{youngs_modulus_in_layer_GPa: {}, youngs_modulus_across_layers_GPa: "
        "{}, "
        "poisson_ratio_in_layer: {}, poisson_ratio_across_layers: {}, shear_modulus_across_layers_GPa: "
        "{}}}\n",
        t->youngs_modulus_in_layer_GPa, t->youngs_modulus_across_layers_GPa, t->poisson_ratio_in_layer,
        t->poisson_ratio_across_layers, t->shear_modulus_across_layers_GPa);
  throw UserError(fmt::format(
      "The material '{}' has three stiffness axes; choose an isotropic or layered one with --like.",
      like.name));
}

std::string in_quotes(const std::string& text) {
  std::string doubled;
  for (const char c : text) doubled.append(c == '\'' ? 2 : 1, c);
  return fmt::format("'{}'", doubled);
}

std::string fatigue_yaml(const MaterialData& like) {
  if (!like.fatigue) return "";
  std::string text;
  const auto add = [&](const char* key, const std::optional<double>& value) {
    if (value) text += fmt::format("{}{}: {}", text.empty() ? "" : ", ", key, *value);
  };
  add("n_static", like.fatigue->n_static);
  add("n_cyclic", like.fatigue->n_cyclic);
  add("B_MPa2_s", like.fatigue->B_MPa2_s);
  return fmt::format("    fatigue: {{{}}}\n", text);
}

}  // namespace

std::string bench_material_yaml(const std::string& name, const MaterialData& like, const std::string& source,
                                const BenchGroupResult& in_layer, const BenchGroupResult* across) {
  const std::string quoted = in_quotes(source);
  std::string text =
      fmt::format("# Made by 'crownproof bench' from {}.\n# Research and teaching only.\nmaterials:\n  {}:\n",
                  source, name);
  text += "    group: ceramic\n";
  if (across) text += "    layered: true\n";
  text += elastic_yaml(like) + strength_yaml("strength", in_layer);
  if (across) text += strength_yaml("strength_across_layers", *across);
  text += fatigue_yaml(like);
  return text + fmt::format(
                    "    evidence:\n      - {{of: [strength], source: {}, certainty: computed, note: maximum "
                    "likelihood; "
                    "modulus unbiased if every specimen broke}}\n      - {{of: [stiffness], source: taken "
                    "over from {}, "
                    "certainty: assumed}}\n",
                    quoted, like.name);
}

}  // namespace crownproof
