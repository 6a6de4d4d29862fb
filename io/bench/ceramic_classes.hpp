// SPDX-License-Identifier: AGPL-3.0-or-later
// The classes of ceramics for dentistry and the mean flexural strength each asks for, shown as context.
#pragma once

#include <string>
#include <vector>

namespace crownproof {

struct CeramicClass {
  std::string name;
  double least_mean_strength_MPa = 0;
  std::string use;
};

/// ISO 6872, edition 2015, from memory and in our words: to be checked against the current text (2024).
const std::vector<CeramicClass>& ceramic_classes();

/// "A mean flexural strength of 850 MPa reaches the class 5 minimum of 800 MPa (ISO 6872:2015, to be checked
/// ...)."
std::string class_sentence(double mean_flexural_strength_MPa);

}  // namespace crownproof
