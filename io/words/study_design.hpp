// SPDX-License-Identifier: AGPL-3.0-or-later
// A variant of a study as a design to choose from, and which of the varied keys are choices at all.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "solver/result/report.hpp"

namespace crownproof {

struct VariantRecord;
struct VariedValue;

/// What a varied key is to the one who decides.
enum class KeyRole {
  thickness,  ///< of the ceramic: the smallest that holds is looked for
  choice,     ///< of material, build or shape: designs are ranked
  given,      ///< by the patient, the test or the question asked: die, bites, years, accuracy
  cement,     ///< only its stiffness is modelled and its bond is perfect
};
KeyRole role_of(const std::string& key);

/// A variant by its worst bite: that with the severest verdict, among equals the smallest safety factor.
struct Design {
  double thickness_mm = 0;
  std::string label;
  std::string given, choice;  ///< "key value" of what varies in these roles (cements count as given)
  const VariantRecord* variant = nullptr;
  const BiteReport* worst = nullptr;

  const std::vector<BiteReport>& bites() const;
  bool passes() const { return worst->verdict == Verdict::below; }
  double safety_factor() const { return worst->tension.governing.safety_factor; }
};

/// The worse of two bites.
bool is_worse(const BiteReport& a, const BiteReport& b);

std::vector<Design> designs_of(std::span<const VariantRecord> variants);

/// "(safety factor 1.20, bite 'clench')", with the other limit where that decides.
std::string design_figures(const Design& design);

}  // namespace crownproof
