// SPDX-License-Identifier: AGPL-3.0-or-later
// Work on all threads that may fail: an exception that leaves an OpenMP region ends the program, with results
// unwritten and folders left behind. Every region of the program is opened here.
#pragma once

#include <omp.h>

#include <cstddef>
#include <exception>
#include <mutex>

namespace crownproof {

/// Holds an exception until the threads have met. That of the smallest index is kept, so that the same input
/// gives the same message however the threads ran.
class HeldError {
 public:
  template <class Work>
  void guard(std::ptrdiff_t index, const Work& work) noexcept {
    try {
      work();
    } catch (...) {
      const std::scoped_lock lock(mutex_);
      if (!error_ || index < index_) {
        error_ = std::current_exception();
        index_ = index;
      }
    }
  }
  void rethrow() const {
    if (error_) std::rethrow_exception(error_);
  }

 private:
  std::mutex mutex_;
  std::exception_ptr error_;
  std::ptrdiff_t index_ = 0;
};

/// work(i) for i = 0 .. n-1, each thread taking one run of indices: for items that take equally long.
/// Rethrows what work threw.
template <class Index, class Work>
void parallel_for(Index n, const Work& work) {
  HeldError error;
#pragma omp parallel for schedule(static)
  for (Index i = 0; i < n; ++i) error.guard(static_cast<std::ptrdiff_t>(i), [&] { work(i); });
  error.rethrow();
}

/// The same, threads taking `chunk` indices whenever they are free: for items that take unequally long.
template <class Index, class Work>
void parallel_for_chunks(Index n, int chunk, const Work& work) {
  HeldError error;
  const bool several = n > static_cast<Index>(chunk);
#pragma omp parallel for schedule(dynamic, chunk) if (several)
  for (Index i = 0; i < n; ++i) error.guard(static_cast<std::ptrdiff_t>(i), [&] { work(i); });
  error.rethrow();
}

/// work() on each thread of a team, which shares loops by orphaned `omp for`. While the others wait for it a
/// thread must not fail: work gets all its memory before. What it throws after the last loop is rethrown.
template <class Work>
void in_team(int n_threads, const Work& work) {
  HeldError error;
#pragma omp parallel num_threads(n_threads)
  error.guard(omp_get_thread_num(), work);
  error.rethrow();
}

}  // namespace crownproof
