#!/usr/bin/python3
"""Compares answers of acid_bench with SciPy's brentq and with 50 digits of mpmath, on the same equation.

  acid_bench --answers FILE && bench/acid_reference.py FILE
Needs Debian's python3-scipy and python3-mpmath.
"""
import math
import sys
import time

import mpmath
from scipy.optimize import brentq

PKS = [(2.98, 4.34), (3.40, 5.13), (3.86,), (4.76,), (3.13, 4.76, 6.40), (1.81, 7.2)]


def charge(h, totals, strong, ks, one):
    total = strong + h - one * 10 ** -14 / h
    for c, steps in zip(totals, ks):
        weight, everything, given = one, one, 0 * one
        for z, k in enumerate(steps):
            weight = weight * k / h
            everything += weight
            given += (z + 1) * weight
        total -= c * given / everything
    return total


def main():
    rows = [tuple(map(float, line.split(","))) for line in open(sys.argv[1], encoding="utf-8")]
    ks = [[10 ** -pk for pk in steps] for steps in PKS]
    began = time.perf_counter()
    by_scipy = [brentq(lambda x, r=r: charge(math.exp(x), r[:6], r[6], ks, 1.0), -14 * math.log(10), 0, xtol=1e-13)
                for r in rows]
    seconds = time.perf_counter() - began
    off = max(abs(-x / math.log(10) - r[7]) for x, r in zip(by_scipy, rows))
    print(f"SciPy brentq: {len(rows)} liquids, {1e9 * seconds / len(rows):.0f} ns each, largest difference {off:.1e} pH")
    mpmath.mp.dps = 50
    one = mpmath.mpf(1)
    exact_ks = [[mpmath.mpf(10) ** -mpmath.mpf(str(pk)) for pk in steps] for steps in PKS]
    worst = 0
    began = time.perf_counter()
    for r in rows:
        totals = [mpmath.mpf(c) for c in r[:6]]
        x = mpmath.findroot(lambda x: charge(mpmath.e ** x, totals, mpmath.mpf(r[6]), exact_ks, one),
                            mpmath.mpf(-r[7]) * mpmath.log(10))
        worst = max(worst, abs(-x / mpmath.log(10) - mpmath.mpf(r[7])))
    seconds = time.perf_counter() - began
    print(f"mpmath, 50 digits: {1e9 * seconds / len(rows):.0f} ns each, largest difference {float(worst):.1e} pH")
    return 0 if off < 1e-9 and worst < 1e-9 else 1


if __name__ == "__main__":
    sys.exit(main())
