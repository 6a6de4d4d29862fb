// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/materials/porosity_data.hpp"

#include "mesh/model_error.hpp"

namespace crownproof {
namespace {

/// `pores`, which has no default: whoever has a layered material must say it.
Field<PorosityData> pores_field() {
  FieldInfo info{.key = "pores",
                 .kind = FieldKind::choice,
                 .help =
                     "How the pores lie; layer_aligned is refused, because no such law holds for it. "
                     "Must be given for a layered material"};
  info.choices = {"even", "layer_aligned"};
  return {info,
          [info](PorosityData& target, const YamlNode& node, const std::string& path) {
            target.pores = to_choice(node, info.choices, path) == 0 ? PoreArrangement::even
                                                                    : PoreArrangement::layer_aligned;
          },
          [](const PorosityData& porosity) {
            if (!porosity.pores) return YamlNode{};
            return field_detail::scalar(*porosity.pores == PoreArrangement::even ? "even" : "layer_aligned");
          }};
}

void check_porosity(const PorosityData& porosity, const YamlNode& node, const std::string& path) {
  try {
    stiffness_left(porosity);
    strength_left(porosity);
  } catch (const ModelError& reason) {
    throw UserError(node.place, fmt::format("'{}': {}", path, reason.what()));
  }
}

}  // namespace

Section<PorosityData> porosity_section() {
  using P = PorosityData;
  return {{
              required(number("relative_density", &P::relative_density, between(0.5, 1),
                              "Density over that of the dense body")),
              choice("stiffness_law", &P::stiffness_law,
                     {{"exponential", StiffnessLaw::exponential},
                      {"power", StiffnessLaw::power},
                      {"closed_pores", StiffnessLaw::closed_pores}},
                     "exponential (partly sintered, to 45 % pores), power (round pores, to 30 %), "
                     "closed_pores (to 10 %)"),
              choice("strength_law", &P::strength_law,
                     {{"ryshkewitch_duckworth", std::string("ryshkewitch_duckworth")}},
                     "Exponential fall of strength, to 45 % pores"),
              number("stiffness_constant", &P::stiffness_constant, above(0, 50),
                     "Constant of the stiffness law; left out: the customary one"),
              number("strength_constant", &P::strength_constant, above(0, 50),
                     "Constant of the strength law; left out: the customary 5"),
              pores_field(),
          },
          {},
          check_porosity};
}

double stiffness_left(const PorosityData& p) {
  return stiffness_ratio(p.stiffness_law, 1 - p.relative_density, p.pores.value_or(PoreArrangement::even),
                         p.stiffness_constant.value_or(0));
}

double strength_left(const PorosityData& p) {
  return strength_ratio(1 - p.relative_density, p.pores.value_or(PoreArrangement::even),
                        p.strength_constant.value_or(0));
}

std::string porosity_words(const PorosityData& p) {
  const PorosityLaw& law = stiffness_laws()[static_cast<std::size_t>(p.stiffness_law)];
  return fmt::format(
      "at relative density {:g}, stiffness is {:.3f} times that of the dense body ({}; holds to {:g} % "
      "pores) "
      "and strength {:.3f} times ({}; to {:g} %); evenly spread pores only, and such laws scatter widely",
      p.relative_density, stiffness_left(p), law.formula, 100 * law.largest_porosity, strength_left(p),
      strength_law().formula, 100 * strength_law().largest_porosity);
}

}  // namespace crownproof
