// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

namespace crownproof {

/// How large a bench specimen is for its flaws (effective volume, mm^3, or area, mm^2) as a function of the
/// Weibull modulus, tabulated once from 0.1 to 1000 because a comparison asks for it by the thousand.
class SizeByModulus {
 public:
  /// `sizes_at`: effective sizes above zero at each of some moduli.
  explicit SizeByModulus(const std::function<std::vector<double>(const std::vector<double>&)>& sizes_at);

  /// ln of the size; held at the end of the table beyond it.
  double log_size(double modulus) const;

 private:
  std::vector<double> log_sizes_;
};

}  // namespace crownproof
