"""Characteristic curves fitted by another hand: prints tests/vectors/characteristic.toml.

Shapes are fitted by scipy.optimize.leastsq, curves through the readings are scipy.optimize.isotonic_regression joined by
scipy.interpolate.PchipInterpolator. Figures and their uncertainties follow by root finding and by numerical gradients.
Run with what requirements.txt names: python curve.py > ../vectors/characteristic.toml
"""

import numpy as np
import scipy
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq, isotonic_regression, leastsq, minimize_scalar

SOURCE = f"tests/reference/curve.py with scipy {scipy.__version__} and numpy {np.__version__}"
READING = 0.02


def toe_and_line(h, f, gamma, h1, a):
    return f + gamma * a * np.logaddexp(0.0, (h - h1) / a)


def shoulder(h, f, gamma, h1, wide, a):
    return f + gamma * a * (np.logaddexp(0.0, (h - h1) / a) - np.logaddexp(0.0, (h - h1 - wide) / a))


def bend(h, f, rise, c, a):
    # h2 - h1 is a tenth of a
    wide = 0.1 * a
    return shoulder(h, f, rise / wide, c - wide / 2, wide, a)


def figures(density, base, first, last, gamma=None):
    """Base + fog, gamma, speed point, criterion, contrast index; nan where it is not among the steps."""
    if gamma is None:
        slope = lambda h: (density(h + 1e-5) - density(h - 1e-5)) / 2e-5
        best = minimize_scalar(lambda h: -slope(h), bounds=(first, last), method="bounded", options={"xatol": 1e-10})
        gamma = max(-best.fun, slope(first), slope(last))
    at = lambda d: brentq(lambda h: density(h) - d, first, last, (), 1e-14)
    try:
        speed = at(base + 0.10)
    except ValueError:
        speed = np.nan
    rise = density(speed + 1.30) - density(speed) if speed + 1.30 <= last else np.nan

    # The gauge: its centre slides along base + fog until both arcs meet the curve at one angle.
    meets = lambda centre, arc: brentq(
        lambda angle: density(centre + arc * np.cos(angle)) - base - arc * np.sin(angle), 0.0, np.pi / 2, (), 1e-14
    )
    turned = lambda centre: meets(centre, 0.2) - meets(centre, 2.2)
    index = np.nan
    try:
        highest = at(base + 0.2) - 1e-9
    except ValueError:
        highest = last - 0.5

    def or_nothing(centre):
        try:
            return turned(centre)
        except ValueError:
            return np.nan

    grid = np.linspace(first - 0.15, highest, 60)
    values = [or_nothing(centre) for centre in grid]
    for place in range(len(grid) - 1):
        if values[place] < 0.0 <= values[place + 1]:
            centre = brentq(turned, grid[place], grid[place + 1], (), 1e-14)
            angle = meets(centre, 2.2)
            if centre + 0.2 * np.cos(angle) >= first and centre + 2.2 * np.cos(angle) <= last:
                index = np.tan(angle)
    return np.array([base, gamma, speed, rise, index], dtype=float)


def fitted(steps, base, function, start):
    h, d = steps.T
    if base is not None:
        h, d = np.append(-1e3, h), np.append(base, d)
    off = lambda numbers: function(h, *numbers) - d
    numbers, covariance, *_ = leastsq(off, start, (), None, True, False, 1e-15, 1e-15, 1e-15, 100000)
    squares = np.sum(off(numbers) ** 2)
    freedom = len(h) - len(numbers)
    shown = np.sqrt(squares / freedom)
    covariance *= max(shown, READING) ** 2
    first, last = steps[0, 0], steps[-1, 0]
    of = lambda numbers: figures(lambda x: function(x, *numbers), numbers[0], first, last)
    value = of(numbers)
    rows = []
    for place in range(len(numbers)):
        by = np.zeros(len(numbers))
        by[place] = 1e-3 * np.sqrt(covariance[place, place])
        rows.append((of(numbers + by) - of(numbers - by)) / (2 * by[place]))
    rows = np.array(rows).T
    return value, np.sqrt(np.einsum("ij,jk,ik->i", rows, covariance, rows)), squares, shown


def through(steps, base):
    h, d = steps.T

    def of(d, base):
        curve = PchipInterpolator(h, isotonic_regression(d).x)
        stretch = min(0.6, h[-1] - h[0])
        starts = h[0] + (h[-1] - stretch - h[0]) * np.arange(81) / 80
        gamma = np.max((curve(starts + stretch) - curve(starts)) / stretch)
        own = isotonic_regression(d).x[0] if base is None else base
        return figures(lambda x: float(curve(np.clip(x, h[0], h[-1]))), own, h[0], h[-1], gamma)

    value = of(d, base)
    squares = 0.0
    for place in range(len(d)):
        by = np.zeros(len(d))
        by[place] = READING
        squares = squares + ((of(d + by, base) - of(d - by, base)) / 2) ** 2
    if base is not None:
        squares = squares + ((of(d, base + READING) - of(d, base - READING)) / 2) ** 2
    return value, np.sqrt(squares)


def case(name, form, steps, base, result):
    value, uncertainty = result
    print("\n[[fit]]")
    print(f'name = "{name}"')
    print(f'form = "{form}"')
    if base is not None:
        print(f"base = {base}")
    print("steps = [" + ", ".join(f"[{h:.3f}, {d:.3f}]" for h, d in steps) + "]")
    for label, one, u in zip(["fog", "gamma", "speed_point", "criterion", "index"], value, uncertainty):
        if np.isfinite(one) and np.isfinite(u):
            print(f"{label} = [{one:.8f}, {u:.8f}]")


def made(seed, count, step, error, function, *numbers):
    h = np.round(step * np.arange(count), 3)
    d = function(h, *numbers) + error * np.random.default_rng(seed).normal(size=count)
    return np.column_stack([h, np.round(d, 3)])


print(f"# Characteristic curves: fits by another hand. Made by {SOURCE}; the readings are invented.")
print(f'\nsource = "{SOURCE}"')
print(f"reading = {READING}")
print("values_within = 2e-5")
print("uncertainties_within = 0.01")

line = made(1, 14, 0.15, 0.01, toe_and_line, 0.12, 0.65, 0.50, 0.12)
case("a toe and a straight line", "line", line, None, fitted(line, None, toe_and_line, [0.1, 0.6, 0.5, 0.1])[:2])
case("the same, base + fog measured", "line", line, 0.115, fitted(line, 0.115, toe_and_line, [0.1, 0.6, 0.5, 0.1])[:2])
full = made(2, 21, 0.15, 0.012, shoulder, 0.20, 0.80, 0.50, 1.9, 0.15)
case("a shoulder too", "shoulder", full, None, fitted(full, None, shoulder, [0.2, 0.8, 0.5, 1.9, 0.15])[:2])
bent = made(3, 16, 0.2, 0.01, bend, 0.10, 2.0, 1.5, 0.35)
case("all bend", "bend", bent, None, fitted(bent, None, bend, [0.1, 2.0, 1.5, 0.35])[:2])
few = made(4, 7, 0.30103, 0.008, toe_and_line, 0.25, 0.55, 0.45, 0.1)
case("seven steps of a stop", "line", few, None, fitted(few, None, toe_and_line, [0.25, 0.55, 0.45, 0.1])[:2])


def two_lines(h):
    return 0.1 + 0.35 * np.clip(h - 0.3, 0, None) + 0.9 * np.clip(h - 1.5, 0, None) - 1.25 * np.clip(h - 2.1, 0, None)


broken = made(5, 19, 0.15, 0.01, two_lines)
case("a shape that no film has", "readings", broken, None, through(broken, None))
case("the same, base + fog measured", "readings", broken, 0.09, through(broken, 0.09))

SHOWN = "0.22 0.23 0.24 0.25 0.30 0.36 0.46 0.55 0.66 0.73 0.86 0.95 1.05 1.14 1.24 1.34 1.44 1.53"
OTHER = "0.24 0.25 0.25 0.27 0.35 0.43 0.53 0.65 0.77 0.89 1.00 1.14 1.26 1.37 1.49 1.62 1.74 1.84"
for name, text in [("what stands in the form at first", SHOWN), ("a second film of the same steps", OTHER)]:
    d = np.array([float(word) for word in text.split()])
    own = np.column_stack([0.15 * np.arange(len(d)), d])
    case(name, "line", own, None, fitted(own, None, toe_and_line, [0.2, 0.7, 0.5, 0.1])[:2])
