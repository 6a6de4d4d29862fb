#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# The program as a user meets it when something is wrong: exit code, a message that names the place, and nothing
# left half-written. Usage: command_line.sh PROGRAM
set -uo pipefail
source "$(dirname "$0")/expect.sh"
program=$1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
cd "$scratch"

stack() {  # a small case; $1: ceramic thickness, $2: force
  cat <<CASE
crownproof: 1
flat_stack: {ceramic_thickness_mm: $1, cement_thickness_um: 80}
materials: {crown: zirconia_3y_milled, cement: resin_cement, die: dentin}
bites: [{name: ball, contacts: [{at: centre, force_N: $2}]}]
accuracy: {cells: 5000}
CASE
}
stack 1.0 100 >good.yaml
stack -1.0 100 >thin.yaml
stack 1.0 0 >idle.yaml
sed 's/at: centre/at_mm: [20, 0]/' good.yaml >off.yaml
sed 's/resin_cement/resin_cemment/' good.yaml >cement.yaml
sed 's/force_N/force/' good.yaml >unit.yaml
stack 1.0 9000 >heavy.yaml
# A die of practically incompressible jelly under a ceramic plate: no solver gets it to the asked residual.
cat >jelly.yaml <<'CASE'
crownproof: 1
flat_stack: {ceramic_thickness_mm: 1.0, cement_thickness_um: 80}
materials:
  crown: zirconia_3y_milled
  cement: {youngs_modulus_GPa: 8, poisson_ratio: 0.4994}
  die: {youngs_modulus_GPa: 0.00001, poisson_ratio: 0.4994}
bites: [{name: ball, contacts: [{at: centre, force_N: 100}]}]
accuracy: {cells: 5000}
CASE
cat >thick.yaml <<'CASE'
crownproof: 1
crown: {tooth: lower_first_molar, occlusal_thickness_mm: 5.5}
materials: {crown: zirconia_3y_milled, cement: resin_cement, die: dentin}
bites: [{name: clench, contacts: [{at: central_fossa, force_N: 300}]}]
CASE

expect 0 'resultant 100.0 N' "$program" check good.yaml
sed 's/5.5/1.0/' thick.yaml >crown.yaml
expect 0 'crown [0-9.]* mm, abutment [0-9.]* mm below the fossa' "$program" check crown.yaml
expect 0 'Example: crownproof run' "$program" --help
expect 0 'compiler' "$program" --version
expect 0 'draft-07' "$program" schema
expect 0 'published: ' "$program" materials dentin
expect 2 'not expected' "$program" run good.yaml --no-such-option
expect 2 'CASE is required' "$program" run
expect 2 'Example: crownproof run' "$program"
expect 2 'missing.yaml: there is no such file' "$program" run missing.yaml
expect 2 '^crownproof: thin.yaml:2:36: .* allowed is 0.1 to 10 mm' "$program" run thin.yaml
expect 2 '^crownproof: idle.yaml:4:55: .* allowed is above 0' "$program" run idle.yaml
stack 1.0 1e308 >absurd.yaml
expect 2 '^crownproof: absurd.yaml:4:55: .* at most 10000 N' "$program" run absurd.yaml
sed 's/crown: zirconia_3y_milled/crown: {youngs_modulus_GPa: 200, poisson_ratio: 0.3, strength: {characteristic_MPa: 900, weibull_modulus: 1e-6}}/' good.yaml >scatter.yaml
expect 2 '^crownproof: scatter.yaml:3:.*weibull_modulus.* allowed is 1 ' "$program" run scatter.yaml
expect 2 'holds no results of crownproof' "$program" draw .
expect 2 '^crownproof: off.yaml:4:41: .* lies off the crown' "$program" run off.yaml
expect 2 "did you mean 'resin_cement'" "$program" run cement.yaml
expect 2 'write force_N' "$program" run unit.yaml
expect 2 "did you mean 'zirconia_4y_milled'" "$program" materials zirconia_4y_miled
expect 3 '^crownproof: thick.yaml:2:8: The occlusal thickness .* largest possible' "$program" run thick.yaml
expect 2 'cannot be written' bash -c "'$program' schema >/dev/full"

# Not solved: what was not found, the likely cause, no results.
expect 4 "^crownproof: Bite 'ball': the displacements did not converge .* Nearly incompressible: die" \
  "$program" run jelly.yaml --output jelly
[ ! -e jelly ] || { echo "FAILED: results of a case that was not solved"; failures=$((failures + 1)); }

# Of a study that fails in one variant the rest is computed and written, and the failed one is named.
sed -e 's/youngs_modulus_GPa: 0.00001/youngs_modulus_GPa: 18/' jelly.yaml >study.yaml
echo 'study: {vary: {materials.die.youngs_modulus_GPa: [18, 0.00001]}}' >>study.yaml
expect 4 "variant 'youngs modulus 0.00001 GPa' failed and is missing: Bite 'ball'" \
  "$program" run study.yaml --output half
grep -q 'youngs modulus 18' half/summary.csv || { echo "FAILED: the variant that was computed is lost"; failures=$((failures + 1)); }
# Loads are posed by check: a patch that hangs over the edge in the second variant is told with its name.
cat >edge.yaml <<'CASE'
crownproof: 1
crown: {tooth: lower_second_molar, occlusal_thickness_mm: 1.0, cement_thickness_um: 80}
materials: {crown: zirconia_3y_milled, cement: resin_cement, die: dentin}
bites:
  - name: b
    contacts: [{at: mesial_marginal_ridge, force_N: 700, radius_mm: 0.9}]
accuracy: {cells: 5000}
study: {vary: {bites.1.contacts.1.direction: [surface_normal, [-0.26, 0.97, -0.28]]}}
CASE
expect 2 "^crownproof: edge.yaml:5:.*variant 'direction \\[-0.26, 0.97, -0.28\\]': .* hangs over the edge" \
  "$program" check edge.yaml
# Variants that are one case are computed once, and each is there.
{ cat good.yaml; echo 'study: {vary: {build.tilt_deg: [0, 45]}}'; } >twins.yaml
expect 0 "variant 'tilt 45 °' is the same case as 'tilt 0 °': computed once" "$program" run twins.yaml --output twice
expect 0 'tilt 45' cat twice/summary.csv
expect 0 '' test -s "twice/02_tilt_45/fields.vtu"

# Bites whose pictures would overwrite each other, materials files that a study cannot vary, a place pressed twice.
sed 's/bites: \[\(.*\)\]$/bites: [{name: a b, contacts: [{at: centre, force_N: 9}]}, {name: a_b, contacts: [{at: centre, force_N: 9}]}]/' good.yaml >namesakes.yaml
expect 2 "^crownproof: namesakes.yaml:4:.*'a b' and 'a_b' .line 4. would get the same file name" "$program" check namesakes.yaml
{ cat good.yaml; echo 'study: {vary: {materials_files: [[a.yaml], [b.yaml]]}}'; } >files.yaml
expect 2 "cannot vary 'materials_files'. List all files" "$program" check files.yaml
sed 's/contacts: \[/contacts: [{at: centre, force_N: 50}, /' good.yaml >twice.yaml
expect 2 "overlap: 0.00 mm apart" "$program" check twice.yaml

# Above the strength: an exit code only for those who ask, and the results are written either way.
expect 5 'above the limit' "$program" run heavy.yaml --output heavy --require-below
[ -s heavy/summary.json ] || { echo "FAILED: no results beside exit code 5"; failures=$((failures + 1)); }
expect 0 'above the limit' "$program" run heavy.yaml --output heavy_told
expect 0 'Results' "$program" run good.yaml --output light --require-below
# Who asks for below is not served by a guess: years of a material whose fatigue is unknown are undecided.
sed 's/^materials:.*/materials: {crown: {youngs_modulus_GPa: 200, poisson_ratio: 0.3, strength: {characteristic_MPa: 900}}, cement: resin_cement, die: dentin}/; $a strength: {years: 5}' good.yaml >unknown_years.yaml
expect 5 'undecided: today it is below the limit' "$program" run unknown_years.yaml --output unknown --require-below

# A folder that cannot be made: its parent is a file.
expect 2 'crownproof: ' "$program" run good.yaml --output good.yaml/results
# Something else is in the folder: it is kept.
mkdir kept && echo mine >kept/letter.txt
expect 2 'kept' "$program" run good.yaml --output kept
expect 2 'kept' "$program" run good.yaml --output kept --force
[ "$(cat kept/letter.txt)" = mine ] || { echo "FAILED: the user's file was touched"; failures=$((failures + 1)); }

# A stream that nobody reads is no reason to abort.
for stream in '2>&-' '2>/dev/full'; do
  bash -c "'$program' check thin.yaml $stream" >/dev/null
  code=$?
  [ "$code" -eq 2 ] || { echo "FAILED: stderr $stream: exit code $code, wanted 2"; failures=$((failures + 1)); }
done
# Nothing that may never end is waited for.
mkfifo pipe.yaml pipe.csv
expect 2 'pipe or a device' timeout 20 "$program" check pipe.yaml
expect 2 'pipe or a device' timeout 20 "$program" bench pipe.csv
expect 2 'pipe or a device' timeout 20 "$program" check /dev/zero
# A file that is no materials file is not quoted.
printf 'secret of another user\n' >letter.yaml
{ cat good.yaml; echo 'materials_files: [letter.yaml]'; } >curious.yaml
expect 2 'letter.yaml.*must hold keys' "$program" check curious.yaml
"$program" check curious.yaml 2>&1 | grep -q 'secret of' && { echo "FAILED: a foreign file is quoted"; failures=$((failures + 1)); }
if [ -r /etc/passwd ]; then
  sed 's|letter.yaml|/etc/passwd|' curious.yaml >curious_too.yaml
  expect 2 'passwd' "$program" check curious_too.yaml
  "$program" check curious_too.yaml 2>&1 | grep -q 'root:' && { echo "FAILED: /etc/passwd is quoted"; failures=$((failures + 1)); }
fi
# A closed terminal ends a run as Ctrl-C does.
"$program" run good.yaml --output hung_up 2>/dev/null >/dev/null &
until [ -n "$(find . -name '*hung_up*')" ] || ! kill -0 $! 2>/dev/null; do :; done
kill -HUP $! 2>/dev/null
wait $!
code=$?
if [ "$code" -ne 130 ] || [ -n "$(find . -name '*hung_up*')" ]; then
  echo "FAILED: hung-up run: exit code $code, wanted 130"
  failures=$((failures + 1))
fi

# Ctrl-C: exit code 130 and nothing left.
"$program" run good.yaml --output stopped 2>/dev/null >/dev/null &
until [ -n "$(find . -name '*stopped*')" ] || ! kill -0 $! 2>/dev/null; do :; done  # it has begun to write
kill -INT $! 2>/dev/null
wait $!
code=$?
left=$(find . -name '*stopped*')
if [ "$code" -ne 130 ] || [ -n "$left" ]; then
  echo "FAILED: interrupted run: exit code $code, wanted 130; left behind: $left"
  failures=$((failures + 1))
fi

# Faulty cases leave no results folder.
[ ! -e results ] || [ -z "$(ls -A results)" ] || { echo "FAILED: left in results: $(ls -A results)"; failures=$((failures + 1)); }
[ "$failures" -eq 0 ] && echo "all as documented"
exit "$failures"
