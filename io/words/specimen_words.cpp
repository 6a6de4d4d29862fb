// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/words/specimen_words.hpp"

#include <fmt/format.h>

#include "io/words/bench_words.hpp"

namespace crownproof {

std::string specimen_words(const SpecimenResult& s) {
  std::string text = fmt::format(
      "The standard's formula gives {:.1f} MPa, the field {:.1f} MPa in the middle ({:+.1f} %). {}",
      s.formula_MPa, s.field_MPa, 100 * (s.field_MPa / s.formula_MPa - 1),
      formula_bias_words(s.test, s.true_over_formula));
  if (s.sizes)
    text += fmt::format(
        " At a Weibull modulus of {:g}, effective volume {:.3g} mm3 (formula {:.3g}), effective area {:.3g} "
        "mm2 (formula {:.3g}), related to the formula's stress.",
        s.sizes->modulus, s.sizes->field_volume_mm3, s.sizes->formula_volume_mm3, s.sizes->field_area_mm2,
        s.sizes->formula_area_mm2);
  return text;
}

}  // namespace crownproof
