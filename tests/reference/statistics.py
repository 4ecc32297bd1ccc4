"""Writes tests/cases/trade/statistics.txt: reference values of the trade's statistics from scipy.

Needs scipy==1.17.1. Run it without arguments to write the file, with --check to compare with what is there.
"""

import sys
from math import sqrt
from pathlib import Path

import scipy
from scipy.stats import beta, binom, fisher_exact, norm, t

FILE = Path(__file__).parents[1] / "cases" / "trade" / "statistics.txt"
SOURCE = "scipy 1.17.1"


def case(formula, value, tolerance="1e-9 rel"):
    if isinstance(value, int) or tolerance == "exact":
        return f"{formula} | {value} | exact | calc | {SOURCE}"
    if value == 0:
        tolerance = "1e-12"
    return f"{formula} | {value:.12g} | {tolerance} | calc | {SOURCE}"


def coverage():
    yield "# Coverage factors"
    for confidence in (50, 68, 80, 90, 95, 99, 99.9):
        share = confidence / 100
        yield case(f"normal_factor({confidence} %)", norm.ppf((1 + share) / 2))
        yield case(f'normal_factor({confidence} %, "one")', norm.ppf(share), "1e-9")
        for freedom in (1, 2, 4, 9, 16, 25.6, 100, 1000, 1001, 50_000, 1_000_000_000):
            yield case(f"coverage_factor({confidence} %, freedom = {freedom})", t.ppf((1 + share) / 2, freedom))


def conformity():
    yield "# Probability of conformity"
    for value in (-3, -1, 0, 0.25, 2, 4.5):
        below, above = norm.cdf((1.5 - value) / 0.8), norm.sf((-0.5 - value) / 0.8)
        between = norm.cdf((1.5 - value) / 0.8) - norm.cdf((-0.5 - value) / 0.8)
        yield case(f"probability_below({value} mm, uncertainty = 0.8 mm, upper = 1.5 mm)", below, "1e-8 rel")
        yield case(f"probability_above({value} mm, uncertainty = 0.8 mm, lower = -0.5 mm)", above, "1e-8 rel")
        yield case(f"probability_between({value} mm, uncertainty = 0.8 mm, lower = -0.5 mm, upper = 1.5 mm)", between, "1e-10")


def lowest(faults, mornings, beyond):
    # Not binomtest(...).proportion_ci, whose root search is good to nine digits only.
    return float(beta.ppf(beyond, faults, mornings - faults + 1)) if faults else 0.0


def highest(faults, mornings, beyond):
    return float(beta.isf(beyond, faults + 1, mornings - faults)) if faults < mornings else 1.0


def rates():
    yield "# Exact limits for a rate"
    counts = [(0, 10), (0, 14), (0, 20), (0, 29), (0, 30), (0, 59), (0, 100), (1, 10), (3, 10), (4, 20), (5, 20)]
    for faults, mornings in [*counts, (9, 10), (10, 10), (37, 400), (1, 5000), (50_000, 100_000)]:
        for confidence in (90, 95, 99):
            share = confidence / 100
            given = f"{faults}, mornings = {mornings}, confidence = {confidence} %"
            for sides, beyond in (("two", (1 - share) / 2), ("one", 1 - share)):
                yield case(f'fault_rate_lowest({given}, sides = "{sides}")', lowest(faults, mornings, beyond))
                yield case(f'fault_rate_highest({given}, sides = "{sides}")', highest(faults, mornings, beyond))


def runs():
    yield "# Clean runs, had nothing been fixed"
    for rate in (5, 10, 20, 25, 30, 50):
        for mornings in (3, 5, 10, 20):
            yield case(f"clean_run_probability({rate} %, mornings = {mornings})", binom.pmf(0, mornings, rate / 100))
        for confidence in (90, 95, 99):
            enough = (n for n in range(1000) if binom.pmf(0, n, rate / 100) <= 1 - confidence / 100)
            yield case(f"clean_mornings_needed({rate} %, confidence = {confidence} %)", next(enough), "exact")


def comparisons():
    yield "# Before and after"
    tables = [[3, 7, 0, 10], [5, 5, 0, 10], [4, 6, 0, 20], [3, 2, 0, 10], [6, 4, 6, 4], [0, 10, 3, 7], [2, 8, 1, 30]]
    # The fewest clean mornings that are below 5 %, and one fewer.
    planned = [[3, 0, 0, 4], [3, 0, 0, 3], [4, 4, 0, 8], [4, 4, 0, 7], [3, 7, 0, 16], [3, 7, 0, 15]]
    for a, b, c, d in [*tables, *planned, [40, 60, 20, 80], [299, 233, 229, 276], [810, 190, 770, 230]]:
        given = f"{a}, mornings_before = {a + b}, faults_after = {c}, mornings_after = {c + d}"
        table = [[a, b], [c, d]]
        yield case(f"before_and_after({given})", float(fisher_exact(table, "greater")[1]))
        yield case(f'before_and_after({given}, sides = "either way")', float(fisher_exact(table)[1]))


def combined():
    yield "# Standard uncertainties"
    yield case("combined_uncertainty(2 / sqrt(3), 1 / sqrt(12))", sqrt(4 / 3 + 1 / 12))


def text():
    parts = [coverage, conformity, rates, runs, comparisons, combined]
    lines = ["# Written by tests/reference/statistics.py; do not edit."]
    for part in parts:
        lines += ["", *part()]
    return "\n".join(lines) + "\n"


def main():
    if scipy.__version__ != "1.17.1":
        sys.exit(f"this needs scipy 1.17.1, not {scipy.__version__}")
    if "--check" not in sys.argv:
        FILE.write_text(text(), encoding="utf-8")
    elif FILE.read_text(encoding="utf-8") != text():
        sys.exit(f"{FILE} is not what this writes")


if __name__ == "__main__":
    main()
