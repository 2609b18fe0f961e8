"""Prints tests/vectors/drifting.toml: Newton cooling and the integral of the rate of development by scipy.

The temperature is solve_ivp's solution of dT/ds = -(T - room)/tau, the integral of the rate is that of quad, and the end of a
development is a root of it by brentq. Run with the packages of tests/reference/requirements.txt:

    python tests/reference/drift.py > tests/vectors/drifting.toml
"""

import numpy
import scipy
from scipy.constants import R, zero_Celsius
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

COOLINGS = [(24.0, 16.0, 3600.0), (20.0, 15.0, 6000.0), (20.0, 31.0, 900.0), (38.0, 20.0, 4500.0)]

# Activation energy in J/mol, planned seconds, at, readings, room and tau after the last (None: held), now.
COURSES = [
    ("a bath a little warmer than the room", 67700.0, 600.0, 20.0, [(0, 20.0)], (16.0, 6000.0), 0),
    ("no drift: the bath is as warm as the room", 67700.0, 600.0, 20.0, [(0, 20.0)], (20.0, 6000.0), 120),
    ("a cold room and a small tank", 95800.0, 840.0, 20.0, [(0, 22.0)], (8.0, 1500.0), 300),
    ("a hot room", 47100.0, 420.0, 20.0, [(0, 19.0)], (34.0, 2400.0), 0),
    ("settled long before the end", 60000.0, 7200.0, 20.0, [(0, 30.0)], (18.0, 60.0), 600),
    ("two readings, then drifting", 60000.0, 600.0, 20.0, [(0, 20.5), (240, 19.6)], (16.0, 5400.0), 240),
    ("four readings, then held", 76000.0, 900.0, 21.0, [(0, 21.0), (120, 20.1), (300, 23.4), (420, 22.0)], None, 480),
    ("read late, and a jump where the bath was changed", 50000.0, 480.0, 20.0, [(60, 18.0), (200, 17.5), (200, 22.0)], (20.0, 3000.0), 210),
    ("done before the last reading", 60000.0, 300.0, 20.0, [(0, 24.0), (180, 23.0), (360, 22.0)], (18.0, 3000.0), 400),
    ("a steep line between two readings", 80000.0, 600.0, 20.0, [(0, 12.0), (500, 34.0)], (20.0, 2000.0), 100),
]


def temperature(course, s):
    times = [float(at) for at, _ in course[0]]
    values = [value for _, value in course[0]]
    if s < times[-1]:
        if s <= times[0]:
            return values[0]
        after = next(index for index, at in enumerate(times) if at > s)
        share = (s - times[after - 1]) / (times[after] - times[after - 1])
        return values[after - 1] + share * (values[after] - values[after - 1])
    if course[1] is None:
        return values[-1]
    room, tau = course[1]
    return room + (values[-1] - room) * numpy.exp(-(s - times[-1]) / tau)


def developed(activation, at, course, until):
    rate = lambda s: numpy.exp(activation / R * (1 / (at + zero_Celsius) - 1 / (temperature(course, s) + zero_Celsius)))
    tau = course[1][1] if course[1] else 1000.0
    last = course[0][-1][0]
    kinks = sorted({0.0, until, *(float(t) for t, _ in course[0]), *(last + tau * n for n in (1, 3, 6, 12, 24))})
    kinks = [kink for kink in kinks if 0 <= kink <= until]
    pieces = zip(kinks[:-1], kinks[1:])
    # The ends are left to their own side: a jump belongs to neither.
    return sum(quad(rate, a, b, epsabs=1e-11, epsrel=1e-12, limit=400)[0] for a, b in pieces)


print("# Drift of a bath and what it costs, written by tests/reference/drift.py. All courses are invented.")
print(f'source = "scipy {scipy.__version__}, numpy {numpy.__version__}: solve_ivp (DOP853), quad and brentq; R and 0 °C of scipy.constants"')
for start, room, tau in COOLINGS:
    times = [60.0, 300.0, 600.0, 1800.0, 2.5 * tau]
    found = solve_ivp(lambda s, t: -(t - room) / tau, (0, max(times)), [start], "DOP853", sorted(times), rtol=1e-13, atol=1e-12)
    print("\n[[cooling]]")
    print(f"start = {start}")
    print(f"room = {room}")
    print(f"tau = {tau}")
    print("temperatures = [" + ", ".join(f"[{s!r}, {t:.9f}]" for s, t in zip(found.t.tolist(), found.y[0].tolist())) + "]")
for name, activation, seconds, at, readings, onward, now in COURSES:
    course = (readings, onward)
    ends = brentq(lambda s: developed(activation, at, course, s) - seconds, 1.0, 40.0 * seconds, (), 1e-10, 1e-14)
    print("\n[[course]]")
    print(f'name = "{name}"')
    print(f"activation = {activation}")
    print(f"seconds = {seconds}")
    print(f"at = {at}")
    print("readings = [" + ", ".join(f"[{float(s)}, {t}]" for s, t in readings) + "]")
    if onward:
        print(f"room = {onward[0]}")
        print(f"tau = {onward[1]}")
    print(f"now = {float(now)}")
    print(f"developed = {developed(activation, at, course, float(now)):.9f}")
    print(f"ends = {ends:.8f}")
