// SPDX-License-Identifier: AGPL-3.0-or-later
// How a bench test ended.
#pragma once

namespace crownproof {

/// How a test ended: broken by the flaws under study; stopped at the load cell's limit (or not broken); or
/// broken for another reason (a grip, a chip, another flaw). The last two are suspended in the fit.
enum class BenchEnd { broken, suspended, broken_otherwise };

}  // namespace crownproof
