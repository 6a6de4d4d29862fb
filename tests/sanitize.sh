#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# The fast unit tests under the address and undefined-behaviour sanitizers; the first report ends the run.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)
cd "$root"
bash cmake/install_packages.sh
cmake --preset sanitize -G Ninja >build/sanitize.log 2>&1 || { cat build/sanitize.log >&2; exit 1; }
programs=(unit_tests_mesh unit_tests_solver unit_tests_io)
echo "Building with sanitizers (some minutes the first time) ..."
cmake --build --preset sanitize --target "${programs[@]}" >build/sanitize.log 2>&1 || { tail -50 build/sanitize.log >&2; exit 1; }
# VTK and the drawing libraries keep memory on purpose until the process ends.
export ASAN_OPTIONS=detect_leaks=0:halt_on_error=1 UBSAN_OPTIONS=halt_on_error=1:print_stacktrace=1
export OMP_WAIT_POLICY=passive
for program in "${programs[@]}"; do
  echo "$program:"
  "build/sanitize/tests/$program" '~[slow]~[.]' | tail -3
done
