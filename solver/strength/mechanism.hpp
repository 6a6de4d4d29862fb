// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

/// A way in which a body can break; the body and its layer planes have each their own strength.
enum class Mechanism {
  breaks_across_body,     ///< a crack through the body, whatever the layers
  opens_between_layers,   ///< a layer plane under tension or in pure shear gives way
  slides_between_layers,  ///< a layer plane pressed shut gives way; only if the case lets planes slide
};

}  // namespace crownproof
