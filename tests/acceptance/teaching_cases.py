#!/usr/bin/env python3
# SPDX-License-Identifier: AGPL-3.0-or-later
"""Runs every teaching case and prints what its text states beside what the program finds.

    python3 tests/acceptance/teaching_cases.py PROGRAM CASES/TEACHING

Fails where they lie farther apart than the case allows, or where a case states nothing: a text that no longer
holds misleads a class."""
import json, pathlib, subprocess, sys, tempfile

program, folder = sys.argv[1], pathlib.Path(sys.argv[2])
failures, n_cases = 0, 0
for case in sorted(folder.glob("*.yaml")):
    if not any(line.startswith("crownproof:") for line in case.read_text().splitlines()):
        continue  # materials of a case
    n_cases += 1
    with tempfile.TemporaryDirectory() as scratch:
        done = subprocess.run([program, "run", case, "--json", "--output", scratch + "/out"],
                              capture_output=True, text=True)
    if done.returncode != 0:
        print(f"FAILED: {case.name}: exit code {done.returncode}\n{done.stderr}")
        failures += 1
        continue
    stated = [(variant["label"], value) for variant in json.loads(done.stdout)["variants"]
              for value in variant["expected"]]
    print(f"{case.name}")
    for label, value in stated:
        found = "nothing" if value["found"] is None else f"{value['found']:.5g}"
        print(f"  {label}, {value['bite']}, {value['zone'] or 'deciding'}, {value['quantity']}: "
              f"{value['expected']:.5g} stated, {found} found, within {value['within_percent']:g} %"
              f"{'' if value['agrees'] else '  FAILED'}")
        failures += not value["agrees"]
    if not stated:
        print("  FAILED: nothing is stated")
        failures += 1
if n_cases < 8:
    print(f"FAILED: only {n_cases} teaching cases in {folder}")
    failures += 1
sys.exit(1 if failures else 0)
