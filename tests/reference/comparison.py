"""Prints tests/vectors/comparison.toml: two one-sided tests of equivalence by statsmodels, and the 90 % interval by scipy.

Run with the packages of tests/reference/requirements.txt:

    python tests/reference/comparison.py > tests/vectors/comparison.toml
"""

import numpy
import scipy
import statsmodels
from scipy import stats
from statsmodels.stats.weightstats import ttost_ind, ttost_paired

SETS = [
    ("alike", [0.85, 0.86, 0.84, 0.85, 0.87], [0.86, 0.85, 0.87, 0.85], 0.03),
    ("thinner", [0.61, 0.63, 0.62, 0.60], [0.85, 0.87, 0.84, 0.86], 0.05),
    ("denser, and unevenly", [1.02, 1.21, 0.98, 1.11, 1.30], [0.85, 0.86], 0.02),
    ("across the margin", [0.80, 0.82, 0.79], [0.84, 0.85, 0.86], 0.045),
    ("two of each", [0.40, 0.44], [0.41, 0.47], 0.5),
    ("many", [0.5 + 0.01 * (i * 7 % 11) for i in range(22)], [0.5 + 0.01 * (i * 5 % 13) for i in range(26)], 0.025),
]
PAIRS = [
    ("alike, step by step", [0.21, 0.45, 0.80, 1.22, 1.61], [0.22, 0.44, 0.82, 1.23, 1.63], 0.03),
    ("thinner at each step", [0.18, 0.38, 0.70, 1.05, 1.40], [0.22, 0.44, 0.82, 1.23, 1.63], 0.05),
    ("two pairs", [0.50, 0.62], [0.51, 0.66], 0.1),
]


def numbers(values):
    return "[" + ", ".join(repr(round(float(value), 12)) for value in values) + "]"


def case(name, paired, first, second, margin):
    if paired:
        p, lower, upper = ttost_paired(numpy.array(first), numpy.array(second), -margin, margin)
        found = stats.ttest_rel(first, second)
    else:
        p, lower, upper = ttost_ind(first, second, -margin, margin, usevar="unequal")
        found = stats.ttest_ind(first, second, equal_var=False)
    interval = found.confidence_interval(0.90)
    print()
    print("[[case]]")
    print(f'name = "{name}"')
    print(f"paired = {str(paired).lower()}")
    print(f"first = {numbers(first)}")
    print(f"second = {numbers(second)}")
    print(f"margin = {margin!r}")
    print(f"equivalence_p = {float(p)!r}")
    print(f"lower_t = {float(lower[0])!r}")
    print(f"upper_t = {float(upper[0])!r}")
    print(f"freedom = {float(lower[2])!r}")
    print(f"interval = [{float(interval.low)!r}, {float(interval.high)!r}]")


versions = f"statsmodels {statsmodels.__version__}, scipy {scipy.__version__}, numpy {numpy.__version__}"
print("# Equivalence of two sets of densities, written by tests/reference/comparison.py. No rounding, one roll that repeats exactly.")
print(f'source = "{versions}: ttost_ind(usevar=\'unequal\') or ttost_paired, and ttest_ind or ttest_rel with confidence_interval(0.90)"')
for name, first, second, margin in SETS:
    case(name, False, first, second, margin)
for name, first, second, margin in PAIRS:
    case(name, True, first, second, margin)
