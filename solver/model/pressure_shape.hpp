// SPDX-License-Identifier: AGPL-3.0-or-later
#pragma once

namespace crownproof {

/// How the pressure of a contact falls from its centre to its edge; Hertz unless the case says otherwise.
enum class PressureShape { hertz, uniform };

}  // namespace crownproof
