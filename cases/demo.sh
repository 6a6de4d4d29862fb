#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# Installs what is missing, builds crownproof and runs the demonstration case.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)
bash "$root/cmake/build.sh" crownproof
# The demonstration owns this folder, so an earlier demonstration may be replaced.
"$root/build/release/io/crownproof" run "$root/cases/lower_first_molar_printed_thickness.yaml" \
  --output "$root/results/demo" --force
