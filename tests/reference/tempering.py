"""Prints tests/vectors/tempering.toml: water by IAPWS-95, ice by IAPWS R10-06, and what mixtures of them come to.

Temperatures are roots of the balance of enthalpy by scipy's brentq, all at 101.325 kPa. The head of the file has the coefficients that
src/chemistry/water.rs uses: a least-squares fit to the same enthalpies. Run with the packages of tests/reference/requirements.txt:

    python tests/reference/tempering.py > tests/vectors/tempering.toml
"""

import iapws
import numpy
import scipy
from iapws import IAPWS95
from iapws._iapws import _Ice
from scipy.optimize import brentq

PRESSURE = 0.101325
POWERS = 6

# Hot, cold, room; millilitres of hot water, of cold, of concentrate; its heat; J/K of the vessel; grams of ice, as warm as.
BATHS = [
    ("hot and cold alone", 45.0, 15.0, 20.0, 150.0, 350.0, 0.0, 0.8, 0.0, 0.0, 0.0),
    ("with concentrate and a vessel", 55.0, 11.0, 17.0, 140.0, 430.0, 60.0, 0.7, 160.0, 0.0, 0.0),
    ("with melting ice", 40.0, 26.0, 26.0, 0.0, 500.0, 20.0, 0.8, 0.0, 48.0, 0.0),
    ("with ice from a freezer", 40.0, 28.0, 30.0, 0.0, 900.0, 0.0, 0.8, 250.0, 110.0, -18.0),
    ("a kettle", 95.0, 8.0, 20.0, 250.0, 250.0, 100.0, 0.9, 0.0, 0.0, 0.0),
]


def water(celsius):
    return IAPWS95(T=celsius + 273.15, P=PRESSURE)


def ice(celsius):
    return _Ice(celsius + 273.15, PRESSURE)["h"]


def enthalpy(celsius):
    return water(celsius).h


grid = numpy.linspace(0.0, 99.5, 200)
values = numpy.array([enthalpy(celsius) - enthalpy(0.0) for celsius in grid])
columns = numpy.vander(grid / 100.0, POWERS + 1, increasing=True)[:, 1:]
fit, *_ = numpy.linalg.lstsq(columns, values, rcond=None)
rounded = numpy.array([float(f"{one:.6g}") for one in fit])
worst = numpy.abs(columns @ rounded - values).max()

print("# Water, ice and mixtures of them, written by tests/reference/tempering.py.")
print("# Enthalpy fitted by powers of a hundredth of the degrees: " + ", ".join(f"{one:.6g}" for one in fit) + f"; off by {worst:.2g} J/g at most")
print(f'source = "iapws {iapws.__version__} (IAPWS-95, R10-06), scipy {scipy.__version__}, numpy {numpy.__version__}, at 101.325 kPa"')
print("# Degrees Celsius, kg/m³, J/g over water at 0 °C.")
print("water = [")
for celsius in [0.0, 4.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 95.0, 99.0]:
    print(f"    [{celsius}, {water(celsius).rho:.5f}, {enthalpy(celsius) - enthalpy(0.0):.6f}],")
print("]")
print("# Degrees Celsius, J/g over water at 0 °C.")
print("ice = [" + ", ".join(f"[{celsius}, {ice(celsius) - enthalpy(0.0):.5f}]" for celsius in [0.0, -5.0, -10.0, -18.0, -25.0]) + "]")

by_volume = water(20.0).rho * water(20.0).cp / 1000.0
for name, hot, cold, room, hot_ml, cold_ml, concentrate, heat, vessel, grams, frozen in BATHS:
    m_hot, m_cold = hot_ml * water(hot).rho / 1000.0, cold_ml * water(cold).rho / 1000.0
    if name == "hot and cold alone":
        # Whole grams: 200 g at 45 °C with 300 g at 15 °C.
        m_hot, m_cold = 200.0, 300.0
        hot_ml, cold_ml = m_hot * 1000.0 / water(hot).rho, m_cold * 1000.0 / water(cold).rho
    before = m_hot * enthalpy(hot) + m_cold * enthalpy(cold) + (grams * ice(frozen) if grams else 0.0)
    other = concentrate * by_volume * heat + vessel
    comes_to = brentq(lambda t: (m_hot + m_cold + grams) * enthalpy(t) + other * (t - room) - before, 0.01, 99.0, (), 1e-10)
    print("\n[[bath]]")
    print(f'name = "{name}"')
    for what, value in [("hot", hot), ("cold", cold), ("room", room)]:
        print(f"{what} = {value}")
    print(f"hot_ml = {hot_ml:.6f}")
    print(f"cold_ml = {cold_ml:.6f}")
    print(f"concentrate = {concentrate}")
    print(f"concentrate_heat = {heat}")
    print(f"vessel = {vessel}")
    print(f"ice = {frozen}")
    print(f"ice_g = {grams}")
    print(f"comes_to = {comes_to:.6f}")
