#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# Completion in shells: every command and option is in the scripts, and bash completes with them. zsh reads its
# script where there is one. Usage: completion.sh PROGRAM CASES_FOLDER
set -uo pipefail
source "$(dirname "$0")/expect.sh"
program=$1 cases=$2
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

"$program" completion bash >"$scratch/bash"
"$program" completion zsh >"$scratch/zsh"
expect 0 '' bash -n "$scratch/bash"
if command -v zsh >/dev/null; then expect 0 '' zsh -n "$scratch/zsh"; fi
expect 2 'fish not in' "$program" completion fish

commands=$("$program" --help | sed -n '/^Subcommands/,/^Exit/s/^  \([a-z]*\)  .*/\1/p')
[ "$(wc -w <<<"$commands")" -ge 7 ] || { echo "FAILED: help lists only: $commands"; failures=$((failures + 1)); }
for command in $commands; do
  for word in "$command" $("$program" "$command" --help | grep -o '^  *\(-h,\)*--[a-z-]*' | grep -o -- '--[a-z-]*'); do
    expect 0 '' grep -qe "$word" "$scratch/bash"
    expect 0 '' grep -qe "$word" "$scratch/zsh"
  done
done

PATH=$(dirname "$program"):$PATH
source "$scratch/bash"
completes() {  # WANTED WORD...: the last word is completed to what is wanted
  local wanted=$1
  shift
  COMP_WORDS=("$@") COMP_CWORD=$(($# - 1))
  _crownproof
  [[ " ${COMPREPLY[*]} " == *" $wanted "* ]] ||
    { echo "FAILED: '$*' completes to '${COMPREPLY[*]}', not '$wanted'"; failures=$((failures + 1)); }
}
cd "$cases"
completes run crownproof ru
completes --require-below crownproof run --re
completes specimens crownproof run spec
completes lower_first_molar_printed_thickness.yaml crownproof check low
completes zirconia_3y_printed crownproof materials zirconia_3
completes dentin crownproof bench table.csv --like dent
completes bench/printed_bars_invented.csv crownproof bench bench/printed
completes zsh crownproof completion z
[ "$failures" -eq 0 ] && echo "all completed"
exit "$failures"
