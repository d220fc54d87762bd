"""Air squeezed without loss of heat, by two libraries: the table that the proofs read.

Prints one line for each library and ratio: temperature, pressure, and the exponent that p·v^n has
just there, which is density times the square of the speed of sound over pressure.
"""

import cantera
import CoolProp
from CoolProp.CoolProp import PropsSI

KELVIN, PASCAL = 300.0, 101325.0
RATIOS = [1 + 0.25 * i for i in range(57)]


def by_cantera(ratio):
    gas = cantera.Solution("air.yaml")
    gas.TP = KELVIN, PASCAL
    gas.SV = gas.entropy_mass, gas.volume_mass / ratio
    return gas.T, gas.P / PASCAL, gas.density * gas.sound_speed**2 / gas.P


def by_coolprop(ratio):
    density = PropsSI("D", "T", KELVIN, "P", PASCAL, "Air") * ratio
    entropy = PropsSI("S", "T", KELVIN, "P", PASCAL, "Air")
    temperature, pressure, sound = (
        PropsSI(what, "D", density, "S", entropy, "Air") for what in "TPA"
    )
    return temperature, pressure / PASCAL, density * sound**2 / pressure


print("library,ratio,kelvin,atm,exponent")
for library, squeeze in [
    (f"cantera {cantera.__version__}", by_cantera),
    (f"CoolProp {CoolProp.__version__}", by_coolprop),
]:
    for ratio in RATIOS:
        kelvin, atm, exponent = squeeze(ratio)
        print(f"{library},{ratio:g},{kelvin:.3f},{atm:.5f},{exponent:.6f}")
