# SPDX-License-Identifier: AGPL-3.0-or-later
# Large headers that nearly every file reads are read once for each library and kept (CROWNPROOF_PRECOMPILE).
# Sources still include what they use: a build with the option off must pass, and tests/acceptance/rooms.py
# asks that each header stands alone.
function(precompile target)
  if(CROWNPROOF_PRECOMPILE)
    target_precompile_headers(${target} PRIVATE
      <algorithm> <cmath> <functional> <memory> <optional> <string> <vector> <Eigen/Core> <Eigen/Eigenvalues> <fmt/format.h> ${ARGN})
  endif()
endfunction()
