// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

/// A two-sided interval; an end is infinite (or 0) if the data do not bound that side.
struct Interval {
  double low = 0, high = 0;
};

}  // namespace crownproof
