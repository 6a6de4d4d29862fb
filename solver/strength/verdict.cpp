// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/strength/verdict.hpp"

namespace crownproof {

std::string verdict_name(Verdict verdict) {
  switch (verdict) {
    case Verdict::below:
      return "below";
    case Verdict::above:
      return "above";
    case Verdict::undecided:
      break;
  }
  return "undecided";
}

int severity(Verdict verdict) {
  return verdict == Verdict::above ? 2 : verdict == Verdict::undecided ? 1 : 0;
}

}  // namespace crownproof
