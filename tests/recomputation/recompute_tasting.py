#!/usr/bin/python3
"""Works out random tasting tests again by SciPy and compares them with what the program answers.

p by scipy.stats.binom, power likewise with the count that is needed, the interval by the beta distribution, rankings by
scipy.stats.friedmanchisquare. All must agree within 1e-9.

  recompute_tasting.py UNDERCROFT [COUNT]
Exit code 77 when SciPy is not installed, which the test runner shows as skipped; UNDERCROFT_REQUIRE_SCIPY=1 (as ./check
sets) makes that a failure.
"""
import json
import os
import random
import subprocess
import sys

try:
    from scipy.stats import beta, binom, friedmanchisquare
except ImportError as missing:
    print(f"skipped: {missing}; this check needs Debian's python3-scipy")
    sys.exit(1 if os.environ.get("UNDERCROFT_REQUIRE_SCIPY") else 77)

GUESS = {"triangle": 1 / 3, "duo-trio": 1 / 2, "paired": 1 / 2}


def asked(program, *words):
    """The terms of an answer by their names."""
    out = subprocess.run([program, "calc", "tasting-test", "--json", *words], capture_output=True, check=True).stdout
    return {term["name"]: term for term in json.loads(out)["terms"]}


def close(what, a, b):
    assert abs(a - b) <= 1e-9 * max(1.0, abs(b)), f"{what}: {a} and {b}"


def counting(program, dice):
    kind = dice.choice(sorted(GUESS))
    two = kind == "paired" and dice.random() < 0.5
    n = dice.randint(1, 200)
    x = dice.randint(0, n)
    alpha = dice.choice([0.2, 0.1, 0.05, 0.01])
    noticing = dice.choice([0.1, 0.2, 0.3, 0.5])
    told = asked(program, kind, "--tasters", str(n), "--preferred" if kind == "paired" else "--correct", str(x),
                 "--alpha", f"{alpha * 100:g} %", "--noticing", f"{noticing * 100:g} %", *(["--two-sided"] if two else []))
    name = f"{kind} {x} of {n} at {alpha}"
    p0 = GUESS[kind]

    def p_of(right):
        one = binom.sf(right - 1, n, p0)
        return min(1.0, 2 * one) if two else one

    close(name, told["p"]["value"], p_of(max(x, n - x) if two else x))
    enough = [right for right in range(n + 1) if p_of(right) <= alpha]
    assert told["needed"]["value"] == (enough[0] if enough else 0), name
    chance = noticing + (1 - noticing) * p0
    close(name + ", power", told["power"]["value"], 100 * binom.sf(enough[0] - 1, n, chance) if enough else 0.0)
    if not two:
        share = lambda c: min(1.0, max(0.0, (c - p0) / (1 - p0)))
        close(name + ", noticed", told["noticed by"]["value"], 100 * share(x / n))
        low = 0.0 if x == 0 else beta.ppf(0.05, x, n - x + 1)
        high = 1.0 if x == n else beta.ppf(0.95, x + 1, n - x)
        assert told["noticed by"]["how"].startswith(f"{100 * share(low):.0f} to {100 * share(high):.0f} %"), name


def ranking(program, dice):
    samples = [chr(65 + i) for i in range(dice.randint(3, 6))]
    tasters = dice.randint(3, 12)
    orders = []
    for _ in range(tasters):
        # Small places make ties.
        orders.append([dice.randint(1, len(samples) + 1) for _ in samples])
    if len({tuple(order) for order in orders}) == 1 and len(set(orders[0])) == 1:
        return
    words = []
    for number, order in enumerate(orders):
        words += ["--ranks", f"T{number}: " + ", ".join(f"{s} {place}" for s, place in zip(samples, order))]
    told = asked(program, "ranking", *words)
    statistic, p = friedmanchisquare(*[[order[i] for order in orders] for i in range(len(samples))])
    close("ranking", told["statistic"]["value"], statistic)
    close("ranking, p", told["p"]["value"], p)


def main():
    program = sys.argv[1]
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 60
    dice = random.Random(20260314)
    for _ in range(count):
        counting(program, dice)
        ranking(program, dice)
    print(f"{count} counting tests and {count} rankings agree with SciPy")


if __name__ == "__main__":
    main()
