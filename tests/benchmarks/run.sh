#!/usr/bin/env bash
# SPDX-License-Identifier: AGPL-3.0-or-later
# Measures crownproof on the demonstration crown beside general libraries and writes docs/performance.md.
#   bash tests/benchmarks/run.sh [CELLS ...]         default: 30000 150000 600000
# PEER_CELLS (default 200000): peers run on meshes up to this many cells. PEER_SECONDS (default 300): each
# peer's time budget. RANKS (default 2): PETSc's ranks. PEER_RUNS (default 3): repeats of the peers that take
# less than a minute. The direct solver and the incomplete Cholesky never run above 200000 cells. Nothing else
# should run meanwhile; the page says how busy the machine was.
set -euo pipefail
root=$(cd "$(dirname "$0")/../.." && pwd)
sizes=("$@"); [ $# -gt 0 ] || sizes=(30000 150000 600000)
peer_cells=${PEER_CELLS:-200000} budget=${PEER_SECONDS:-300} ranks=${RANKS:-2} peer_runs=${PEER_RUNS:-3}
build=$root/build/bench
cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCROWNPROOF_BENCHMARKS=ON >/dev/null
cmake --build "$build" --target bench_solver bench_pipeline bench_eigen >/dev/null
cmake --build "$build" --target bench_petsc >/dev/null 2>&1 || echo "PETSc peers left out: petsc-dev not found" >&2
programs=$build/tests/benchmarks
scratch=$(mktemp -d); trap 'rm -rf "$scratch"' EXIT
page=$scratch/page.md
load() { cut -d' ' -f1 /proc/loadavg; }

# A line `row|...` as a line of the table; $1 $2 $3: our set-up + solve, processor seconds, memory, or nothing.
table_row() {
  awk -F'|' -v ours="$1" -v our_cpu="$2" -v our_memory="$3" '
    function part(a, b) { return b > 0 ? sprintf("%.1f", a / b) : "1" }
    /^row/ { printf "| %s | %s | %s | %s | %s | %s | %s | %s | %s | %s | %s |\n", $2, $4, $5, $6,
             $7 ? $7 : "direct", $8, $9, part($4 + $5, ours), part($6, our_cpu), part($9, our_memory), $10 }'
}

# peer NAME RUNS COMMAND...: its row, or the reason why there is none.
peer() {
  local name=$1 code=0; shift
  echo "  $name (load $(load))" >&2
  timeout "$budget" "$@" >"$scratch/peer" 2>"$scratch/peer.err" || code=$?
  if grep -q '^row' "$scratch/peer"; then table_row "$ours" "$our_cpu" "$our_memory" <"$scratch/peer" >>"$page"
  elif [ $code = 124 ]; then echo "| $name | not finished in $budget s | | | | | | > $(awk -v a="$budget" -v b="$ours" 'BEGIN { printf "%.0f", a / b }') | | | |" >>"$page"
  else echo "| $name | did not run (exit code $code) | | | | | | | | | |" >>"$page"; fi
}

measure_size() {
  local cells=$1 problem=$scratch/problem.bin
  echo "$cells cells" >&2
  "$programs/bench_pipeline" "$cells" "$scratch/results" >"$scratch/pipeline"
  for run in "1 1" "2 1" "2 8"; do
    # shellcheck disable=SC2086
    "$programs/bench_solver" "$cells" $run >"$scratch/own.${run// /.}"
  done
  local own=$scratch/own.2.1
  IFS='|' read -r _ n_cells unknowns _ peak < <(grep '^pipeline' "$scratch/pipeline")
  echo; echo "## $n_cells cells, $unknowns unknowns"; echo
  echo "$(awk -F'|' '/^mesh/ {print $3}' "$own") of the cells are curved. Load of the machine at the start: $(load)."; echo
  echo "| stage of the whole case (two bites) | s |"; echo "|---|---|"
  awk -F'|' '/^stage/ {printf "| %s | %s |\n", $2, $3}' "$scratch/pipeline"
  echo; echo "Peak memory of the whole case: $peak GiB."; echo
  echo "| level | unknowns | numbers stored |"; echo "|---|---|---|"
  awk -F'|' '/^level/ {printf "| %s | %s | %s |\n", $2, $3, $4}' "$own"
  echo
  echo "| solver | set-up s | solve s | processor s | iterations | residual | peak GiB | time / ours | processor / ours | memory / ours | runs |"
  echo "|---|---|---|---|---|---|---|---|---|---|---|"
  ours=$(awk -F'|' '/^row/ {print $4 + $5}' "$own") our_cpu=$(awk -F'|' '/^row/ {print $6}' "$own")
  our_memory=$(awk -F'|' '/^row/ {print $9}' "$own")
  table_row "" "" "" <"$own"
  table_row "$ours" "$our_cpu" "$our_memory" <"$scratch/own.1.1"
  table_row "$ours" "$our_cpu" "$our_memory" <"$scratch/own.2.8"
  if [ "$cells" -gt "$peer_cells" ]; then
    echo; echo "Peers left out at this size: above PEER_CELLS=$peer_cells (hours and tens of GiB together)."
    return
  fi
  "$programs/bench_solver" "$cells" 2 1 "$problem"
  local runs=1; [ "$cells" -gt 50000 ] || runs=$peer_runs
  for which in pmg gamg boomeramg; do
    [ -x "$programs/bench_petsc" ] || break
    OMP_NUM_THREADS=1 peer "PETSc $which" mpirun --allow-run-as-root --oversubscribe -n $ranks "$programs/bench_petsc" $which "$problem" $runs
  done
  if [ "$n_cells" -gt 200000 ]; then
    echo; echo "CHOLMOD and the incomplete Cholesky left out at this size: more than 24 GiB, or more than an hour."
    return
  fi
  peer "Eigen CG + incomplete Cholesky" "$programs/bench_eigen" incomplete_cholesky "$problem" 1
  OMP_NUM_THREADS=2 peer "CHOLMOD" "$programs/bench_eigen" cholmod "$problem" 1
}

{
  echo "# Performance"; echo
  echo "Written by \`bash tests/benchmarks/run.sh\` (packages for the peers: petsc-dev, libsuitesparse-dev); do"
  echo "not edit. The demonstration crown (invented data, 1.0 mm occlusal thickness), relative residual 1e-8."
  echo "Every peer gets the same assembled matrix, right-hand side and tolerance, with its nodes sorted along a"
  echo "Z-order curve, and both cores (PETSc: $ranks ranks); assembling is not counted for the peers. Set-up and"
  echo "solve are medians of \`runs\`. Memory is the peak resident memory of the whole process, for crownproof"
  echo "with the mesh and all libraries, for peers with their matrix. CHOLMOD runs with the fill-reducing orders"
  echo "it chooses itself. Processor seconds count all threads or ranks, waiting ranks of PETSc included."; echo
  echo "Machine: $(lscpu | sed -n 's/^Model name: *//p'), family $(lscpu | sed -n 's/^CPU family: *//p') model $(lscpu | sed -n 's/^Model: *//p'), $(nproc) cores, $(awk '/MemTotal/ {printf "%.0f GiB", $2 / 1048576}' /proc/meminfo); $(c++ --version | head -1)."
  echo "Measured $(date +%F). Load average before the run: $(cut -d' ' -f1-3 /proc/loadavg); above about 0.5 other work shared the"
  echo "cores: the ratios then carry its noise and the times are too long, iterations and memory are exact."
} >"$page"
for cells in "${sizes[@]}"; do measure_size "$cells" >>"$page"; done
cp "$page" "$root/docs/performance.md"
echo "written: docs/performance.md" >&2
