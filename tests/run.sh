#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# Installs what is missing, builds with warnings as errors, and runs the test suite. The benchmarks are built
# too, so that they keep working. `--slow` adds the tests labelled slow.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)
choice=(--label-exclude slow)
[ "${1:-}" != --slow ] || choice=()
bash "$root/cmake/build.sh" all -DCROWNPROOF_WARNINGS_AS_ERRORS=ON -DCROWNPROOF_TESTS=ON -DCROWNPROOF_BENCHMARKS=ON
# The solver uses every core by itself, so tests run one after another.
ctest --test-dir "$root/build/release" --output-on-failure --no-tests=error "${choice[@]}"
