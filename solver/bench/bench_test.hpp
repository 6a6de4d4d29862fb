// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

/// The tests that strength is measured with.
enum class BenchTest {
  tension,
  bend_3_point,
  bend_4_point,
  piston_on_three_balls,
  ring_on_ring,
  compression
};

/// Where fracture starts: at flaws throughout the body or at flaws of its surface.
enum class FlawKind { volume, surface };

}  // namespace crownproof
