"""Prints the times of tests/vectors/steps.toml and of src/session/recipe.rs in which a bath drifts towards the room: the integral of
the rate of development by quad, and the end of it by brentq. Run with the packages of tests/reference/requirements.txt:

    python tests/reference/steps.py
"""

import numpy
import scipy
from scipy.constants import R, zero_Celsius
from scipy.integrate import quad
from scipy.optimize import brentq

# A factor of 2.5 between 20 and 30 °C, and a tank that goes half of the way to the room in 69:18.
ACTIVATION = numpy.log(2.5) * R / (1 / (20 + zero_Celsius) - 1 / (30 + zero_Celsius))
TAU = 4158 / numpy.log(2)


def rate(celsius, at):
    return numpy.exp(ACTIVATION / R * (1 / (at + zero_Celsius) - 1 / (celsius + zero_Celsius)))


def drifted(begins, room, seconds):
    return room + (begins - room) * numpy.exp(-seconds / TAU)


def developed(course, at, begin, end):
    return quad(lambda s: rate(course(s), at), begin, end, epsabs=1e-11, epsrel=1e-12)[0]


def ends(course, at, asked):
    return brentq(lambda end: developed(course, at, 0, end) - asked, 0, 10_000, (), 1e-10)


print(f"scipy {scipy.__version__}, numpy {numpy.__version__}; {ACTIVATION:.6f} J/mol, {TAU:.6f} s")
end = ends(lambda s: drifted(20, 16, s), 20, 600)
print(f"10:00 at 20 °C, room of 16 °C: {end:.6f} s, ends at {drifted(20, 16, end):.6f} °C")
warm = 600 * rate(20, 22)
end = ends(lambda s: drifted(22, 28, s), 22, warm)
print(f"10:00 at 20 °C, bath of 22 °C ({warm:.6f} s), room of 28 °C: {end:.6f} s, ends at {drifted(22, 28, end):.6f} °C")
asked = developed(lambda s: drifted(20, 16, s), 20, 0, 600)
to_reading = developed(lambda s: 20 - s / 300, 20, 0, 300)
end = brentq(lambda end: to_reading + developed(lambda s: drifted(19, 16, s - 300), 20, 300, end) - asked, 300, 10_000, (), 1e-10)
print(f"600 s that are right for a room of 16 °C are worth {asked:.6f} s; with 19 °C read after 300 s they become {end:.6f} s")
