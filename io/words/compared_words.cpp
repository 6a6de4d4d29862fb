// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/compared_words.hpp"

#include <fmt/format.h>

#include "solver/model/model.hpp"
#include "solver/model/region_material.hpp"
#include "solver/model/requirement.hpp"
#include "solver/model/strength.hpp"
#include "solver/model/studied_body.hpp"
#include "solver/strength/compared_strength.hpp"

namespace crownproof {
namespace {

/// "which 95 % of the bench specimens exceed (characteristic 1000 MPa, Weibull modulus 10)".
std::string basis_words(const Strength& s, StrengthBasis basis) {
  if (basis == StrengthBasis::exceeded_by_95_percent)
    return fmt::format(
        "which 95 % of the bench specimens exceed (characteristic {:.0f} MPa, Weibull modulus {:.3g})",
        s.characteristic_MPa, s.weibull_modulus);
  return fmt::format("the characteristic strength, below which 63.2 % of the bench specimens break{}",
                     s.weibull_modulus > 0 ? "" : " (no Weibull modulus is known, so no lower one either)");
}

/// The same of both strengths of a layered body, once if they are of one kind.
std::string both_words(const Strength& body, const Strength& layers, StrengthBasis wished) {
  const StrengthBasis b = basis_for(body, wished), l = basis_for(layers, wished);
  const double body_MPa = strength_value(body, b), layers_MPa = strength_value(layers, l);
  if (b != l)
    return fmt::format(
        "Tension in the body is compared with {:.0f} MPa, {}; opening of the layers with {:.0f} MPa, {}.",
        body_MPa, basis_words(body, b), layers_MPa, basis_words(layers, l));
  const std::string both =
      b == StrengthBasis::characteristic
          ? "the characteristic strengths, below which 63.2 % of the bench specimens break"
          : fmt::format(
                "which 95 % of the bench specimens exceed (characteristic {:.0f} and {:.0f} MPa, Weibull "
                "moduli {:.3g} and {:.3g})",
                body.characteristic_MPa, layers.characteristic_MPa, body.weibull_modulus,
                layers.weibull_modulus);
  return fmt::format(
      "Tension in the body is compared with {:.0f} MPa, opening of the layers with {:.0f} MPa, {}.", body_MPa,
      layers_MPa, both);
}

/// Why strength falls with time: "cyclic fatigue, n = 30".
std::string loss_words(const StrengthLoss& loss, const FatigueData& fatigue) {
  switch (loss.cause) {
    case LossCause::none:
      return "no crack growth in so short a time";
    case LossCause::slow_crack_growth:
      return fmt::format("slow crack growth, static n = {:g}{}", *fatigue.n_static,
                         fatigue.B_MPa2_s ? "" : ", bench strength taken as measured in some seconds");
    case LossCause::cyclic_fatigue:
      break;
  }
  return fmt::format("cyclic fatigue, n = {:g}", *fatigue.n_cyclic);
}

std::string years_sentence(const MaterialStrength& strength, const Chewing& chewing) {
  if (years_unknown(strength, chewing))
    return fmt::format(
        "Nothing is known of the fatigue of this material (n_static, n_cyclic), so nothing is said about its "
        "strength after {:g} years.",
        chewing.years);
  const StrengthLoss loss = *loss_in_years(strength, chewing);
  std::string left = fmt::format("{:.0f} MPa", strength.in_layer.judged_MPa());
  if (strength.across_layer) left += fmt::format(" and {:.0f} MPa", strength.across_layer->judged_MPa());
  return fmt::format("After {:g} years {:.0f} % of that is left, {} ({}): {}.{}", chewing.years,
                     100 * loss.factor, left, loss_words(loss, *strength.fatigue), chewing_words(chewing),
                     strength.fatigue->n_cyclic
                         ? ""
                         : " No cyclic exponent is known: the real loss under chewing may be much "
                           "larger than this static one.");
}

}  // namespace

std::string chewing_words(const Chewing& chewing) {
  return fmt::format("{:g} cycles a year, each with {}", chewing.cycles_per_year,
                     chewing.force_share < 1
                         ? fmt::format("{:g} % of the bite's force", 100 * chewing.force_share)
                         : "the full force of the bite (chewing_force_share lowers it)");
}

std::vector<std::string> compared_sentences(const Model& model) {
  const RegionMaterial& m = material_under_study(model);
  const MaterialStrength& strength = *m.material.strength;
  const StrengthBasis wished = model.requirement.compared_with;
  const Strength& body = strength.in_layer;
  const StrengthBasis basis = basis_for(body, wished);
  std::vector<std::string> sentences{m.layered && strength.across_layer
                                         ? both_words(body, *strength.across_layer, wished)
                                         : fmt::format("Tension is compared with {:.0f} MPa, {}.",
                                                       strength_value(body, basis),
                                                       basis_words(body, basis))};
  if (model.requirement.chewing.years > 0)
    sentences.push_back(years_sentence(strength, model.requirement.chewing));
  return sentences;
}

std::string allowed_words(const Requirement& requirement) {
  if (!requirement.allowed_fracture_probability) return "";
  return fmt::format(
      "at most {:g} % may break{}{}", 100 * *requirement.allowed_fracture_probability,
      requirement.chewing.years > 0 ? fmt::format(" within {:g} years", requirement.chewing.years) : "",
      requirement.allowed_by_default ? " (the default; allowed_fracture_probability sets another)" : "");
}

}  // namespace crownproof
