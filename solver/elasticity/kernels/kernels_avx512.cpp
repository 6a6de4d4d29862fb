// SPDX-License-Identifier: AGPL-3.0-or-later
// The kernels for: AVX-512 (x86-64-v4).
#define CROWNPROOF_KERNELS kernels_avx512
#define CROWNPROOF_REGISTER_BYTES 64
#include "solver/elasticity/kernels/kernel_bodies.inl"

namespace crownproof {
extern const Kernels avx512_kernels;
const Kernels avx512_kernels = kernels_avx512::make_kernels("avx512");
}  // namespace crownproof
