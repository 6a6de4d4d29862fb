// SPDX-License-Identifier: AGPL-3.0-or-later
// The kernels for: plain SSE2 or whatever every processor of this kind has.
#define CROWNPROOF_KERNELS kernels_plain
#define CROWNPROOF_REGISTER_BYTES 16
#include "solver/elasticity/kernels/kernel_bodies.inl"

namespace crownproof {
extern const Kernels plain_kernels;
const Kernels plain_kernels = kernels_plain::make_kernels("plain");
}  // namespace crownproof
