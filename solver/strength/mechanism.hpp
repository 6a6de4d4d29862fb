// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

/// A way in which a body under tension can break; each has its own strength.
enum class Mechanism {
  breaks_across_body,    ///< a crack through the body, whatever the layers
  opens_between_layers,  ///< a layer plane gives way
};

}  // namespace crownproof
