#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# Installs what is missing and builds a target of the release preset: build.sh TARGET [configure options].
set -euo pipefail
target=${1:?usage: build.sh TARGET [configure options]}
shift
root=$(cd "$(dirname "$0")/.." && pwd)
bash "$root/cmake/install_packages.sh"
cd "$root"
log=build/last_build.log
mkdir -p build
quietly() { "$@" >"$log" 2>&1 || { cat "$log" >&2; echo "crownproof: this step failed: $*" >&2; exit 1; }; }
quietly cmake --preset release -G Ninja "$@"
echo "Building (a few minutes the first time) ..."
quietly cmake --build --preset release --target "$target"
