// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

/// Why no probability of fracture follows from what is known of a material.
enum class NoProbability {
  no_modulus,             ///< the strength has no Weibull modulus
  no_strength,            ///< it is not above zero
  no_specimen,            ///< it names no bench specimen, so flaws cannot be carried over
  compressive,            ///< it was measured in compression
  impossible_specimen,    ///< the sizes of its specimen contradict each other
  layers_along_specimen,  ///< the layers of the specimen for the strength across them feel nothing of its
                          ///< test
  no_fatigue,             ///< years are asked for and nothing is known of the material's fatigue
};

}  // namespace crownproof
