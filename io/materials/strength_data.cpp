// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/materials/strength_data.hpp"

#include <memory>

#include "solver/bench/bench_specimen.hpp"
#include "solver/bench/bench_test.hpp"
#include "solver/material/fatigue.hpp"

namespace crownproof {
namespace {

/// Two numbers, low and high.
Field<StrengthBoundsData> range(const std::string& key, std::vector<double> StrengthBoundsData::*member,
                                const std::string& help) {
  return {{.key = key, .kind = FieldKind::numbers, .help = help, .count = 2},
          [member](StrengthBoundsData& target, const YamlNode& node, const std::string& path) {
            target.*member = to_numbers(node, 2, path);
            if (!(0 < (target.*member)[0] && (target.*member)[0] < (target.*member)[1]))
              throw UserError(
                  node.place,
                  fmt::format("'{}' needs a lower bound above zero and an upper bound above that, "
                              "such as [850, 960].",
                              path));
          },
          [member](const StrengthBoundsData& bounds) {
            YamlNode list;
            list.kind = YamlKind::list;
            for (const double bound : bounds.*member)
              list.items.push_back(field_detail::scalar(fmt::format("{:.10g}", bound)));
            return list;
          }};
}

Section<StrengthBoundsData> bounds_section() {
  using B = StrengthBoundsData;
  return {{
              required(range("characteristic_MPa", &B::characteristic_MPa,
                             "Lower and upper bound of the strength")),
              required(range("weibull_modulus", &B::weibull_modulus, "Lower and upper bound of the modulus")),
              number("correlation", &B::correlation, between(-1, 1),
                     "Correlation of the two estimates (of their logarithms)"),
          },
          {},
          {}};
}

const std::vector<std::pair<std::string, FlawKind>>& flaw_kinds() {
  static const std::vector<std::pair<std::string, FlawKind>> words{{"volume", FlawKind::volume},
                                                                   {"surface", FlawKind::surface}};
  return words;
}

Section<FlawStrengthData> flaw_strength_section() {
  using F = FlawStrengthData;
  return {
      {
          text("name", &F::name, "What the flaws are: pore, edge chip"),
          required(
              number("characteristic_MPa", &F::characteristic_MPa, above(0, 20000),
                     "Stress at which 63.2 % of the specimens would have broken from these flaws alone")),
          required(number("weibull_modulus", &F::weibull_modulus, between(1, 200), "Their Weibull modulus")),
          choice("flaws", &F::flaws, flaw_kinds(), "Where they lie: in the body or at its surface"),
          section("bounds_90_percent", &F::bounds_90_percent, bounds_section(),
                  "How well the bench test knows them"),
      },
      {},
      {}};
}

void check_strength(const StrengthData& strength, const YamlNode& node, const std::string& path) {
  if (!strength.flaw_populations.empty() && (!strength.bench_test || !strength.weibull_modulus))
    throw UserError(
        node.find("flaw_populations")->place,
        fmt::format("'{}' has flaw populations but lacks 'bench_test' or 'weibull_modulus'. Add them.",
                    path));
  if (strength.bounds_90_percent && !strength.weibull_modulus)
    throw UserError(node.find("bounds_90_percent")->place,
                    fmt::format("'{}' has bounds but lacks 'weibull_modulus'. Add it.", path));
}

/// A size of a specimen; which ones a test needs is checked together.
Field<BenchSpecimen> size(const std::string& key, double BenchSpecimen::*member, const std::string& help) {
  Field<BenchSpecimen> field = number(key, member, above(0, 500), help);
  field.info.default_text.clear();
  field.write = [member](const BenchSpecimen& specimen) {
    return specimen.*member > 0 ? field_detail::scalar(fmt::format("{:.10g}", specimen.*member)) : YamlNode{};
  };
  return field;
}

}  // namespace

const std::vector<std::pair<std::string, BenchTest>>& bench_test_words() {
  static const std::vector<std::pair<std::string, BenchTest>> words{
      {"3_point_bending", BenchTest::bend_3_point},
      {"4_point_bending", BenchTest::bend_4_point},
      {"piston_on_three_balls", BenchTest::piston_on_three_balls},
      {"ring_on_ring", BenchTest::ring_on_ring},
      {"tension", BenchTest::tension},
      {"compression", BenchTest::compression}};
  return words;
}

std::string bench_test_word(BenchTest test) {
  for (const auto& [word, known] : bench_test_words())
    if (known == test) return word;
  return "";
}

const std::vector<std::pair<std::string, std::optional<LayerNormal>>>& layer_normal_words() {
  static const std::vector<std::pair<std::string, std::optional<LayerNormal>>> words{
      {"thickness", LayerNormal::thickness}, {"width", LayerNormal::width}, {"length", LayerNormal::length}};
  return words;
}

std::string layer_normal_word(LayerNormal normal) {
  for (const auto& [word, known] : layer_normal_words())
    if (known == normal) return word;
  return "";
}

const std::vector<std::pair<std::string, double BenchSpecimen::*>>& bench_sizes() {
  using S = BenchSpecimen;
  static const std::vector<std::pair<std::string, double S::*>> all{
      {"width_mm", &S::width_mm},
      {"thickness_mm", &S::thickness_mm},
      {"length_mm", &S::length_mm},
      {"span_mm", &S::span_mm},
      {"inner_span_mm", &S::inner_span_mm},
      {"diameter_mm", &S::diameter_mm},
      {"support_diameter_mm", &S::support_diameter_mm},
      {"loading_diameter_mm", &S::loading_diameter_mm}};
  return all;
}

Section<BenchSpecimen> bench_test_section() {
  using S = BenchSpecimen;
  return {{
              required(choice("test", &S::test, bench_test_words(), "Kind of test")),
              size("width_mm", &S::width_mm, "Width of a bar or block"),
              size("thickness_mm", &S::thickness_mm, "Thickness of a bar (along the load), disc or block"),
              size("length_mm", &S::length_mm, "Length under load in tension or compression"),
              size("span_mm", &S::span_mm, "Bending: distance of the outer rollers"),
              size("inner_span_mm", &S::inner_span_mm, "4-point bending: distance of the inner rollers"),
              size("diameter_mm", &S::diameter_mm, "Diameter of a disc"),
              size("support_diameter_mm", &S::support_diameter_mm,
                   "Discs: circle of the three balls, or support ring"),
              size("loading_diameter_mm", &S::loading_diameter_mm, "Discs: piston, or loading ring"),
              number("poisson_ratio", &S::poisson, between(0, 0.49), "Discs: Poisson's ratio in the formula"),
              choice("layer_normal", &S::layer_normal, layer_normal_words(),
                     "Printed material: direction normal to its layers; of a disc, width and length lie in "
                     "its plane. Left out: `thickness`; of a strength across layers `length`"),
              number("layer_tilt_deg", &S::layer_tilt_deg, between(0, 90),
                     "Printed material: tilts the layer normal from there towards the length (`length`: "
                     "towards the thickness)"),
          },
          {},
          [](const BenchSpecimen& specimen, const YamlNode& node, const std::string&) {
            if (const auto why = why_no_specimen(specimen)) throw UserError(node.place, *why);
          }};
}

Section<StrengthData> strength_data_section() {
  using D = StrengthData;
  return {
      {
          required(number("characteristic_MPa", &D::characteristic_MPa, above(0, 20000),
                          "Stress at which 63.2 % of the reference specimens have broken")),
          number("weibull_modulus", &D::weibull_modulus, between(1, 200),
                 "Weibull modulus: the larger, the smaller the scatter"),
          text("specimen", &D::specimen, "Reference specimen and test"),
          text("environment", &D::environment, "Dry, water, saliva; temperature"),
          section("bench_test", &D::bench_test, bench_test_section(),
                  "Reference specimen in numbers; without it no probability of fracture is computed"),
          choice("flaws", &D::flaws, flaw_kinds(), "Where fracture starts: in the body or at its surface"),
          section("bounds_90_percent", &D::bounds_90_percent, bounds_section(),
                  "How well the bench test knows the strength; carried to the probability of fracture"),
          sections(
              "flaw_populations", &D::flaw_populations, flaw_strength_section(),
              "Kinds of flaw that the bench test told apart, each fitted with the others as suspended; the "
              "probability of fracture is then theirs together"),
      },
      {},
      check_strength};
}

Section<FatigueData> fatigue_section() {
  using F = FatigueData;
  const Bounds exponent = above(2, 500);
  return {{
              number("n_static", &F::n_static, exponent,
                     "Exponent of slow crack growth under constant or slowly rising load"),
              number("n_cyclic", &F::n_cyclic, exponent, "Exponent of stress against number of cycles"),
              number("B_MPa2_s", &F::B_MPa2_s, above(0, 1e12),
                     "Crack-growth parameter; with it the bench strength counts as free of crack growth"),
              number("bench_time_s", &F::bench_seconds, above(0, 1e6), "Time to fracture of the bench test"),
              text("environment", &F::environment, "In what surroundings it was measured"),
          },
          {},
          [](const FatigueData& fatigue, const YamlNode& node, const std::string& path) {
            if (!fatigue.n_static && !fatigue.n_cyclic)
              throw UserError(node.place, fmt::format("'{}' needs 'n_static' or 'n_cyclic'.", path));
            if (fatigue.B_MPa2_s && !fatigue.n_static)
              throw UserError(node.place,
                              fmt::format("'{}' has B_MPa2_s, which belongs to 'n_static'. Add it.", path));
          }};
}

namespace {

std::optional<StrengthBounds> to_bounds(const std::optional<StrengthBoundsData>& b) {
  if (!b) return std::nullopt;
  return StrengthBounds{{b->characteristic_MPa[0], b->characteristic_MPa[1]},
                        {b->weibull_modulus[0], b->weibull_modulus[1]},
                        b->correlation};
}

}  // namespace

Strength to_strength(const StrengthData& data) {
  Strength strength{.characteristic_MPa = data.characteristic_MPa,
                    .weibull_modulus = data.weibull_modulus.value_or(0)};
  strength.flaws = data.flaws;
  if (data.bench_test) strength.specimen = std::make_shared<const BenchSpecimen>(*data.bench_test);
  strength.bounds = to_bounds(data.bounds_90_percent);
  for (const FlawStrengthData& flaw : data.flaw_populations) {
    Strength alone{.characteristic_MPa = flaw.characteristic_MPa, .weibull_modulus = flaw.weibull_modulus};
    alone.flaws = flaw.flaws;
    alone.specimen = strength.specimen;
    alone.bounds = to_bounds(flaw.bounds_90_percent);
    strength.populations.push_back(alone);
  }
  return strength;
}

}  // namespace crownproof
