#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# Every case and bench table that comes with the program is read without complaint, and a bench test becomes the
# material of a crown. Usage: shipped_data.sh PROGRAM CASES_FOLDER
set -uo pipefail
source "$(dirname "$0")/expect.sh"
program=$1
cases=$2
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

checked=0
while IFS= read -r case_file; do
  expect 0 'Verdict' "$program" check "$case_file"
  checked=$((checked + 1))
done < <(find "$cases" -name '*.yaml' -not -path '*/materials/*' | sort)
[ "$checked" -ge 8 ] || { echo "FAILED: only $checked cases found below $cases"; failures=$((failures + 1)); }

# Shipped data are marked as invented.
while IFS= read -r table; do
  expect 0 '^# Invented' head -3 "$table"
  expect 0 'For research and teaching' "$program" bench "$table"
done < <(find "$cases/bench" -name '*.csv')

blocks=$cases/bench/compression_blocks_invented.csv
bars=$cases/bench/printed_bars_invented.csv
expect 0 "reaches the load cell's limit unbroken with probability [0-9.]+ %" "$program" bench "$blocks"
expect 0 'Specimens at the limit must be counted as suspended' "$program" bench "$blocks"
expect 0 '1 of 12 against 5 of 12 is not yet evidence: p = 0\.155' "$program" bench "$blocks"
expect 2 'compressive strength says nothing about how a crown breaks' \
  "$program" bench "$blocks" --like zirconia_3y_printed --group layers_across_load
expect 2 "has 2 groups. Name the one that gives the strength with --group: layers" "$program" bench "$blocks" \
  --like zirconia_3y_printed
expect 0 'should not be pooled' "$program" bench "$bars"

# A table without sizes is no source for a crown, and the reason is given.
printf 'strength_MPa\n810\n902\n955\n1003\n1044\n' >"$scratch/no_sizes.csv"
expect 0 'No crown can be computed from this group: .*effective volume is not known' \
  "$program" bench "$scratch/no_sizes.csv"
expect 2 'cannot be the source of a material' "$program" bench "$scratch/no_sizes.csv" --like zirconia_3y_printed

# Fewer than ten are a material only for who asks for it.
printf 'test,width_mm,thickness_mm,span_mm,strength_MPa\n' >"$scratch/five.csv"
for strength in 810 902 955 1003 1044; do echo "3_point_bending,4,1.2,16,$strength" >>"$scratch/five.csv"; done
expect 2 'has 5 specimens, and a material needs 10 or more' \
  "$program" bench "$scratch/five.csv" --like zirconia_3y_milled
expect 0 'bounds_90_percent' "$program" bench "$scratch/five.csv" --like zirconia_3y_milled --min-specimens 5

# Bench test -> material file -> case.
expect 0 "Written to $scratch/bars" "$program" bench "$bars" --output "$scratch/bars" --like zirconia_3y_printed \
  --name tested_zirconia --group flat --across upright
for written in report.txt report.json groups.csv pairs.csv methods.md probability_plot.svg; do
  expect 0 . cat "$scratch/bars/$written"
done
expect 2 'exists' "$program" bench "$bars" --output "$scratch/bars" --like zirconia_3y_printed --name tested_zirconia \
  --group flat
cat >"$scratch/crown.yaml" <<'CASE'
crownproof: 1
materials_files: [bars/tested_zirconia.yaml]
crown: {tooth: lower_first_molar, occlusal_thickness_mm: 1.0}
materials: {crown: tested_zirconia, cement: resin_cement, die: dentin}
bites: [{name: clench, contacts: [{at: central_fossa, force_N: 300}]}]
CASE
expect 0 'strength 939\.95. MPa .* within layers, 688\.177 MPa .* across' "$program" check "$scratch/crown.yaml"

# The bounds of the bench test arrive in the probability of fracture. A flat stack is quick to compute.
cat >"$scratch/stack.yaml" <<'CASE'
crownproof: 1
materials_files: [bars/tested_zirconia.yaml]
flat_stack: {ceramic_thickness_mm: 1.0, cement_thickness_um: 80}
materials: {crown: tested_zirconia, cement: resin_cement, die: dentin}
bites: [{name: ball, contacts: [{at: centre, force_N: 700}]}]
accuracy: {cells: 5000}
CASE
expect 0 'Probability of fracture .*90 % bounds' \
  bash -c "'$program' run '$scratch/stack.yaml' --output '$scratch/stack' | tr -s '\n ' ' '"

# The allowed probability of fracture, from the case to every table.
sed 's/cells: 5000}/cells: 5000}\nstrength: {allowed_fracture_probability: 1.0e-6, years: 10}/' "$scratch/stack.yaml" \
  >"$scratch/allowed.yaml"
expect 0 'probability of fracture within 10 years of chewing must be at most 0.0001 %' \
  "$program" check "$scratch/allowed.yaml"
expect 0 'above the limit of fracture: probability of fracture within 10 years .* This limit decides' \
  bash -c "'$program' run '$scratch/allowed.yaml' --output '$scratch/allowed' | tr -s '\n ' ' '"
expect 0 '"allowed_probability": 1e-06' cat "$scratch/allowed/summary.json"
expect 0 ',above,fracture_probability,' cat "$scratch/allowed/summary.csv"
expect 0 '"allowed_fracture_probability": 1e-06' cat "$scratch/allowed/manifest.json"

[ "$failures" -eq 0 ] && echo "all as shipped"
exit "$failures"
