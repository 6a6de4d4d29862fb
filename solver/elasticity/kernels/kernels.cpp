// SPDX-License-Identifier: AGPL-3.0-or-later
#include "solver/elasticity/kernels/kernels.hpp"

#include <array>

namespace crownproof {

extern const Kernels plain_kernels;
#ifdef CROWNPROOF_X86_KERNELS
extern const Kernels avx2_kernels;
extern const Kernels avx512_kernels;
#endif

int n_kernel_sets() {
#ifdef CROWNPROOF_X86_KERNELS
  __builtin_cpu_init();
  const bool avx2 = __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma");
  const bool avx512 = __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512bw") &&
                      __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512vl");
  if (avx2) return avx512 ? 3 : 2;
#endif
  return 1;
}

const Kernels& kernel_set(int i) {
#ifdef CROWNPROOF_X86_KERNELS
  static const std::array<const Kernels*, 3> sets{&plain_kernels, &avx2_kernels, &avx512_kernels};
  return *sets.at(i);
#else
  static_cast<void>(i);  // there is only one set
  return plain_kernels;
#endif
}

const Kernels& kernels() {
  static const Kernels& best = kernel_set(n_kernel_sets() - 1);
  return best;
}

}  // namespace crownproof
