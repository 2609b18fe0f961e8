"""Control charts and trends by numpy and scipy, for tests/reference/control.toml:

    pip install -r tests/reference/requirements.txt
    python tests/reference/control.py > tests/reference/control.toml

Moving averages as weighted sums written out in full, not step by step; cumulative sums as the largest of all sums that end at a
value; the meeting of a band with a limit by solving its quadratic, not by walking the days.
"""

import numpy as np
import scipy
from scipy import integrate, stats

rng = np.random.default_rng(7)


def numbers(values, places=12):
    return "[" + ", ".join(f"{value:.{places}f}" for value in values) + "]"


def smoothed(x, level, lam):
    n = len(x)
    return [
        sum(lam * (1 - lam) ** (i - j) * x[j] for j in range(i + 1)) + (1 - lam) ** (i + 1) * level
        for i in range(n)
    ]


def half_widths(n, sigma, lam):
    # The variance of the weighted sum, term by term.
    return [3 * sigma * np.sqrt(sum((lam * (1 - lam) ** j) ** 2 for j in range(i + 1))) for i in range(n)]


def sums(x, level, slack, sign):
    y = sign * (np.asarray(x) - level) - slack
    return [max(0.0, max(y[j : i + 1].sum() for j in range(i + 1))) for i in range(len(y))]


def meets(days, x, limit, above, today):
    """Days from today until band and line pass the limit: 0 where they have, -1 where not within 730."""
    days, x = np.asarray(days, float), np.asarray(x, float)
    n, fit = len(x), stats.linregress(days, x)
    residual = x - fit.intercept - fit.slope * days
    s = np.sqrt((residual**2).sum() / (n - 2))
    t, mean = stats.t.ppf(0.975, n - 2), days.mean()
    spread = ((days - mean) ** 2).sum()
    found = []
    for side in (1, 0, -1) if above else (-1, 0, 1):
        at = lambda d: fit.intercept + fit.slope * d + side * t * s * np.sqrt(1 / n + (d - mean) ** 2 / spread)
        beyond = lambda d: at(d) > limit if above else at(d) < limit
        if beyond(today):
            found.append(0)
            continue
        # (a + b z - L)^2 = (t s)^2 (1/n + z^2/spread), with z from the mean day
        a, b, c = fit.intercept + fit.slope * mean - limit, fit.slope, (side * t * s) ** 2
        roots = np.roots([b * b - c / spread, 2 * a * b, a * a - c / n]) if side else np.roots([b, a])
        crossings = sorted(root.real + mean for root in roots if abs(root.imag) < 1e-9)
        ahead = [np.ceil(d) for d in crossings if d > today and beyond(np.floor(d) + 1)]
        found.append(int(ahead[0] - today) if ahead and ahead[0] - today <= 730 else -1)
    return fit.slope, fit.stderr, found


print(f'source = "tests/reference/control.py, numpy {np.__version__}, scipy {scipy.__version__}"')

# The ranges of neighbours: |X| and |Y| with X and Y of variance 2 and correlation -1/2, by integration.
law = stats.multivariate_normal([0, 0], [[2, -1], [-1, 2]])
both = integrate.dblquad(lambda y, x: abs(x * y) * law.pdf([x, y]), -9, 9, -9, 9, epsabs=1e-7)[0]
d2 = 2 / np.sqrt(np.pi)
print(f"d2 = {d2:.9f}")
print(f"ranges_uncertainty = {np.sqrt(2 - d2**2 + 2 * (both - d2**2)) / d2:.6f}")

for name, level, sigma, lam, k, h, drift, n in [
    ("level", 1.0, 0.04, 0.2, 0.5, 4.0, 0.0, 24),
    ("falling", 1.0, 0.03, 0.2, 0.5, 5.0, -0.0008, 18),
    ("rising", 0.25, 0.01, 0.3, 0.4, 4.0, 0.0002, 12),
    ("all at once", 1.2, 0.05, 1.0, 1.0, 3.0, 0.002, 6),
    ("slow", 1.0, 0.02, 0.05, 0.25, 8.0, -0.0002, 40),
]:
    days = np.sort(rng.choice(250, n, replace=False))
    days -= days[0]
    x = np.round(level + drift * days + sigma * rng.standard_normal(n), 3)
    above = drift > 0
    limit = round(level + (drift * (days[-1] + 90) if drift else -3.5 * sigma), 3)
    today = int(days[-1]) + 5
    slope, slope_u, when = meets(days, x, limit, above, today)
    mr = np.abs(np.diff(x)).mean()
    print("\n[[series]]")
    print(f'name = "{name}"')
    print(f"level = {level}\nsigma = {sigma}\nlambda = {lam}\nk = {k}\nh = {h}")
    print(f"days = {[int(day) for day in days]}")
    print(f"values = {numbers(x, 3)}")
    print(f"moving_range = {mr:.12f}")
    print(f"smoothed = {numbers(smoothed(x, level, lam))}")
    print(f"half_widths = {numbers(half_widths(n, sigma, lam))}")
    print(f"above = {numbers(sums(x, level, k * sigma, 1))}")
    print(f"below = {numbers(sums(x, level, k * sigma, -1))}")
    print(f"limit = {limit:.6f}\nlimit_above = {str(above).lower()}\ntoday = {today}")
    print(f"slope = {slope:.12f}\nslope_uncertainty = {slope_u:.12f}")
    print(f"meets = {when}")
