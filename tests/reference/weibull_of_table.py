#!/usr/bin/env python3
# SPDX-License-Identifier: AGPL-3.0-or-later
"""Weibull fit of the ten bars of tests/data/tables/plain.csv, apart from the program: weibull_of_table.py

Strength in 4-point bending 3 F (L - l) / (2 b h^2); maximum likelihood by bisection of its equation for the modulus.
The figures stand in tests/unit/io/bench_table/tables_as_exported.cpp.
"""
import math

LOADS = [1204, 1311, 987, 1122, 1056, 1267, 1175, 902, 1089, 1233]


def fit(strengths, broken):
    """(characteristic strength, modulus) with suspended specimens."""
    largest = max(strengths)
    x = [s / largest for s in strengths]
    logs = [math.log(v) for v, b in zip(x, broken) if b]

    def slope(m):
        powers = [v ** m for v in x]
        return 1 / m + sum(logs) / len(logs) - sum(p * math.log(v) for p, v in zip(powers, x)) / sum(powers)

    low, high = 0.01, 1000.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if slope(middle) > 0 else (low, middle)
    return largest * (sum(v ** low for v in x) / len(logs)) ** (1 / low), low


if __name__ == "__main__":
    bars = [3 * load * (40 - 20) / (2 * 4 * 3 ** 2) for load in LOADS]
    print("mean %.10g" % (sum(bars) / len(bars)))
    print("all broken: characteristic %.10g MPa, modulus %.10g" % fit(bars, [True] * 10))
    print("the strongest suspended: characteristic %.10g MPa, modulus %.10g" % fit(bars, [b != 1311 / 1.2 for b in bars]))
