// SPDX-License-Identifier: AGPL-3.0-or-later
// The kernels for: AVX2 and fused multiply-add (x86-64-v3).
#define CROWNPROOF_KERNELS kernels_avx2
#define CROWNPROOF_REGISTER_BYTES 32
#include "solver/elasticity/kernels/kernel_bodies.inl"

namespace crownproof {
extern const Kernels avx2_kernels;
const Kernels avx2_kernels = kernels_avx2::make_kernels("avx2");
}  // namespace crownproof
