// SPDX-License-Identifier: AGPL-3.0-or-later
// Arrays that start on a cache line, so that wide loads never straddle one.
#pragma once

#include <cstddef>
#include <new>
#include <vector>

namespace crownproof {

/// Allocator for std::vector; 64-byte alignment.
template <class T>
struct CacheLineAllocator {
  using value_type = T;
  CacheLineAllocator() = default;
  template <class U>
  explicit CacheLineAllocator(const CacheLineAllocator<U>&) {}
  T* allocate(std::size_t n) { return static_cast<T*>(::operator new (n * sizeof(T), std::align_val_t{64})); }
  void deallocate(T* p, std::size_t) { ::operator delete (p, std::align_val_t{64}); }
  friend bool operator==(const CacheLineAllocator&, const CacheLineAllocator&) { return true; }
};

template <class T>
using AlignedVector = std::vector<T, CacheLineAllocator<T>>;

}  // namespace crownproof
