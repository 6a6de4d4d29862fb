#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# Runs on machines that lack something: memory, threads, processes, room in a file, streams, a folder to work in.
# Each must end in time with a documented exit code, leave nothing hidden behind, and have its results whole, with
# pictures or with a word on how to draw them, whenever they were computed. Usage: sick_machines.sh PROGRAM
set -uo pipefail
program=$1
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"; [ -z "${group:-}" ] || rmdir "$group" 2>/dev/null' EXIT
chmod 777 "$scratch"
cd "$scratch"
failures=0 runs=0 computed=0

small() {  # $1: cells
  cat <<CASE
crownproof: 1
flat_stack: {ceramic_thickness_mm: 1.0, cement_thickness_um: 80}
materials: {crown: zirconia_3y_milled, cement: resin_cement, die: dentin}
bites: [{name: ball, contacts: [{at: centre, force_N: 100}]}]
accuracy: {cells: $1}
CASE
}
small 5000 >small.yaml
small 60000 >larger.yaml
chmod 644 ./*.yaml

fault() {
  printf 'FAILED: %s: %s\n  said: %s\n' "$1" "$2" "$(head -c 600 said)"
  failures=$((failures + 1))
}

# ends WHAT "CODES" COMMAND: a shell command that writes its results to $scratch/out ends with one of the codes.
ends() {
  local what=$1 codes=$2
  shift 2
  rm -rf out
  timeout -k 5 100 bash -c "$*" >said 2>&1
  local code=$?
  runs=$((runs + 1))
  [[ " $codes " == *" $code "* ]] || fault "$what" "exit code $code, wanted one of $codes"
  local left
  left=$(find "$scratch" -name '.*unfinished*')
  [ -z "$left" ] || fault "$what" "left behind: $left"
  rm -rf "$scratch"/.*unfinished*
  if [ -e out ]; then
    computed=$((computed + 1))
    for file in fields.vtu summary.csv summary.json manifest.json; do
      [ -s "out/$file" ] || fault "$what" "the results lack $file"
    done
    [ -s out/ball_crown.png ] || grep -q 'crownproof draw' out/manifest.json || fault "$what" "no picture and no word of it"
  elif [ "$code" -eq 0 ]; then
    fault "$what" "exit code 0 without results"
  fi
}
run="'$program' run small.yaml --output out --quiet"

# Too little address space even to load the program's libraries is the loader's affair: 127.
for MB in 60 80 100; do ends "ulimit -v $MB MB" "127 1" "ulimit -v $((MB * 1000)); exec $run"; done
for MB in 120 150 200 250 300 350 400 450 500 600 700; do
  ends "ulimit -v $MB MB" "0 1" "ulimit -v $((MB * 1000)); exec $run"
done
for MB in 1000 2000; do ends "ulimit -v $MB MB" "0" "ulimit -v $((MB * 1000)); exec $run"; done
larger="'$program' run larger.yaml --output out --quiet"
for MB in 300 400 500; do ends "ulimit -v $MB MB, larger mesh" "0 1" "ulimit -v $((MB * 1000)); exec $larger"; done
for MB in 50 100 150 200; do ends "ulimit -d $MB MB" "0 1" "ulimit -d $((MB * 1000)); exec $run"; done
"$program" run larger.yaml --output never --quiet >/dev/null 2>&1 &&
  rm -rf never # the same mesh without limits, so that a refusal above is one of memory
ends "needed and fitting cells are told" "1" "ulimit -v 250000; exec $larger"
grep -qE 'needs about [0-9]+ MiB of memory, and [0-9]+ MiB are there' said || fault "message" "no memory named"

# Limits of threads do not bind root.
plain() { printf '%s' "$*"; }
as_user=plain
if [ "$(id -u)" -eq 0 ]; then
  if setpriv --reuid 65534 --clear-groups "$program" --version >/dev/null 2>&1; then
    as_user() { printf 'setpriv --reuid 65534 --clear-groups bash -c "%s"' "$*"; }
    as_user=as_user
  else
    echo "limits of threads were not tried: another user cannot run the program here"
    as_user=
  fi
fi
if [ -n "$as_user" ]; then
  for u in 1 2 3 4; do
    for threads in 1 4; do
      ends "ulimit -u $u, $threads threads" "0" "$($as_user "ulimit -u $u; exec $run --threads $threads")"
    done
  done
fi

# Full files and streams that are closed, full or not read.
ends "ulimit -f 20 KiB" "2" "ulimit -f 20; exec $run"
ends "ulimit -f 1.5 MB" "0 2" "ulimit -f 1500; exec $run"
loud="'$program' run small.yaml --output out"
ends "stdout closed" "2" "exec $loud >&-"
ends "stderr closed" "0" "exec $loud 2>&-"
ends "all streams closed" "2" "exec $loud <&- >&- 2>&-"
ends "stdout full" "2" "exec $loud >/dev/full"
ends "stderr full" "0" "exec $loud 2>/dev/full"
ends "nobody reads" "2" "set -o pipefail; $loud | true"

# A control group, where the system lets this user make one (version 1 or 2).
for parent in "/sys/fs/cgroup/memory$(sed -n 's/^[0-9]*:memory://p' /proc/self/cgroup)" /sys/fs/cgroup/memory /sys/fs/cgroup; do
  [ -z "${group:-}" ] && mkdir "$parent/crownproof-$$" 2>/dev/null && group=$parent/crownproof-$$
done
limit=$(ls "${group:-/none}"/memory.limit_in_bytes "${group:-/none}"/memory.max 2>/dev/null | head -1)
if [ -n "$limit" ]; then
  for MB in 64 128 256 1000; do
    echo $((MB * 1000000)) >"$limit"
    ends "control group of $MB MB" "$([ "$MB" -lt 256 ] && echo '1' || echo '0')" "echo \$\$ >$group/cgroup.procs; exec $run"
  done
else
  echo "control groups were not tried: this user cannot make one"
fi

# Folders that are gone or elsewhere.
ends "no folder to work in" "2" "mkdir gone; cd gone; rmdir ../gone; exec '$program' run '$scratch/small.yaml' --quiet"
grep -q 'internal error' said && fault "no folder to work in" "called an internal error"
mkdir elsewhere && ln -s elsewhere linked && ln -s nowhere dangling
ends "output is a link" "0 " "'$program' run small.yaml --output linked --quiet; code=\$?; cp -r elsewhere out; exit \$code"
[ -L linked ] || fault "output is a link" "the link was replaced"
ends "output is a link to nowhere" "2" "exec '$program' run small.yaml --output dangling --quiet"

echo "$runs runs, $computed with results"
[ "$runs" -ge 40 ] || echo "fewer than 40 runs were possible here"
[ "$failures" -eq 0 ] && echo "all as documented"
exit "$failures"
