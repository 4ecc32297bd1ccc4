"""Writes results of trade computations by others than ourselves to tests/cases/trade/reference.txt, as lines of
`formula | expected | tolerance | mark | source`.

    python3 -m venv /tmp/trade && /tmp/trade/bin/pip install -r tests/reference/requirements.txt
    /tmp/trade/bin/python tests/reference/trade.py

With `--check` it writes nothing and ends with 1 when the file is not what it would write. Each result is worked out by
a library, or with its constants and unit factors; nothing here calls bayhand.
"""

import math
import pathlib
import sys

import chemicals
import chemicals.viscosity
import fluids
import fluids.core
import fluids.friction
import numpy
import pint
import scipy
import scipy.optimize
from scipy import constants

FILE = pathlib.Path(__file__).parents[1] / "cases" / "trade" / "reference.txt"
HEAD = "# Written by tests/reference/trade.py; do not edit.\n"

unit = pint.UnitRegistry()
CHEMICALS = f"library chemicals {chemicals.__version__}"
FLUIDS = f"library fluids {fluids.__version__}"
PINT = f"library pint {pint.__version__}"
SCIPY = f"library scipy {scipy.__version__}"


def shown(value):
    """Ten significant digits: the last bits differ from one machine's mathematics to another's."""
    return f"{value:.10g}"


def row(formula, value, symbol, source):
    return f"{formula} | {shown(value)} {symbol}".rstrip() + f" | 1e-8 rel | calc | {source}"


def viscosity_indexes():
    for at_40, at_100 in [(34, 7.2), (30, 6.0), (150, 15), (100, 11.5), (46, 6.8), (220, 19.4), (9.1, 2.6), (900, 80)]:
        index = chemicals.viscosity.viscosity_index(at_40 * 1e-6, at_100 * 1e-6, rounding=True)
        formula = f"viscosity_index({at_40} mm²/s, at_100 = {at_100} mm²/s)"
        yield f"{formula} | {index:.0f} | exact | calc | {CHEMICALS}, viscosity_index"


def walther(celsius, cooler, hotter):
    """ASTM D341 in its form for 2 mm²/s and more, solved for the viscosity by a root finder."""
    def height(viscosity):
        return math.log10(math.log10(viscosity + 0.7 + math.exp(-1.47 - 1.84 * viscosity - 0.51 * viscosity**2)))

    def across(celsius):
        return math.log10(constants.convert_temperature(celsius, "Celsius", "Kelvin"))

    (t1, v1), (t2, v2) = cooler, hotter
    slope = (height(v1) - height(v2)) / (across(t1) - across(t2))
    wanted = height(v1) + slope * (across(celsius) - across(t1))
    return scipy.optimize.brentq(lambda log: height(math.exp(log)) - wanted, math.log(2), math.log(1e6), xtol=1e-15)


def viscosities():
    for at_40, at_100 in [(34, 7.2), (30, 6.0), (150, 15), (220, 19.4)]:
        for celsius in [-10, 0, 20, 65, 80, 95]:
            value = math.exp(walther(celsius, (40, at_40), (100, at_100)))
            formula = f"viscosity_at({celsius} °C, {at_40} mm²/s, at_100 = {at_100} mm²/s)"
            yield row(formula, value, "mm²/s", f"ASTM D341 solved with {SCIPY}, brentq")


def vcf(density, above):
    growth = 0.6278 / density * above
    return math.exp(-growth * (1 + 0.8 * growth))


def expansion():
    for density, celsius in [(840, -40), (850, 40), (850, 90), (865, 80), (900, 120), (1000, 60)]:
        yield row(f"oil_volume_factor({density} kg/m³, {celsius} °C)", vcf(density, celsius - 15), "", "API MPMS 11.1, table 54D")
    for observed, celsius in [(810, 80), (830, 40), (870, -10), (954, 150)]:
        base = scipy.optimize.brentq(lambda at_15: at_15 * vcf(at_15, celsius - 15) - observed, 700, 1300, xtol=1e-12)
        source = f"API MPMS 11.1, table 53D, solved with {SCIPY}, brentq"
        yield row(f"oil_base_density({observed} kg/m³, {celsius} °C)", base, "kg/m³", source)


def lines():
    oils = [(34e-6, 840), (10.9e-6, 810), (221e-6, 860)]
    for litres, bore, length in [(2, 8, 3), (4, 8, 3), (6, 9.5, 2.5)]:
        for viscosity, density in oils:
            flow = (litres * unit.liter / unit.minute).to("meter**3/second").magnitude
            velocity = flow / (math.pi / 4 * (bore / 1000) ** 2)
            number = fluids.core.Reynolds(velocity, bore / 1000, nu=viscosity)
            shape = f"{litres} L/min, {bore} mm"
            thick = f"{viscosity * 1e6:.10g} mm²/s"
            yield row(f"reynolds_number({shape}, {thick})", number, "", f"{FLUIDS}, Reynolds")
            factor = fluids.friction.friction_laminar(number)
            drop = factor * length / (bore / 1000) * density * velocity**2 / 2
            rest = f"length = {length} m, viscosity = {thick}, density = {density} kg/m³"
            yield row(f"laminar_pressure_drop({shape}, {rest})", drop, "Pa", f"{FLUIDS}, friction_laminar")
            yield row(
                f"laminar_flow({shown(drop)} Pa, {bore} mm, {rest})", litres, "L/min", f"{FLUIDS}, friction_laminar"
            )


def flows():
    for amount, seconds in [(1, 20), (1, 22), (2, 37)]:
        flow = (amount * unit.quart / (seconds * unit.second)).to("liter/minute").magnitude
        yield row(f"cooler_flow({amount} qt, {seconds} s)", flow, "L/min", PINT)
    for gallons, drop in [(0.5, 20), (1.25, 35)]:
        carried = gallons * unit.gallon / unit.minute * 52 * unit.pound / unit.foot**3
        carried *= 0.5 * constants.Btu * unit.joule / unit.pound / unit.delta_degF * drop * unit.delta_degF
        formula = f"heat_carried({gallons} gal/min, {drop} Δ°F, 52 lb/ft³, 0.5 Btu/lb/Δ°F)"
        yield row(formula, carried.to("watt").magnitude, "W", f"{PINT}; {SCIPY} for the Btu")


def road():
    for mph, axle, gear, tyre in [(70, 3.42, 0.70, 28), (60, 3.08, 1, 26.5), (45, 4.10, 1.48, 31)]:
        turns = mph * unit.mile / unit.hour * axle * gear / (math.pi * tyre * unit.inch)
        speed = turns.to("1/minute").magnitude
        rest = f"{axle}, gear = {gear}, tyre = {tyre} in"
        yield row(f"engine_speed({mph} mph, {rest})", speed, "rpm", PINT)
        yield row(f"road_speed({shown(speed)} rpm, {rest})", mph, "mph", PINT)


def capacity():
    for k, torque in [(150, 400), (137.46, 250), (200, 310)]:
        yield row(f"stall_speed({k}, {torque} lbf·ft)", k * math.sqrt(torque), "rpm", "definition of the K-factor")
        metric = (torque * unit.foot_pound).to("newton*meter").magnitude
        yield row(f"stall_speed({k}, {shown(metric)} N·m)", k * math.sqrt(torque), "rpm", PINT)


def cylinders():
    for diameter, width, level in [(0.28, 0.12, 0.1), (0.28, 0.12, 0.2), (0.3, 0.15, 0.01), (0.254, 0.11, 0.127)]:
        tank = fluids.TANK(D=diameter, L=width, horizontal=True)
        litres = (tank.V_from_h(level) * unit.meter**3).to("liter").magnitude
        lengths = f"{diameter * 1000:g} mm, width = {width * 1000:g} mm, level = {level * 1000:g} mm"
        yield row(f"left_in_converter({lengths})", litres, "L", f"{FLUIDS}, TANK on its side")


def stall():
    for torque, speed in [(250, 2200), (410, 1850)]:
        power = (torque * unit.newton * unit.meter * speed * unit.turn / unit.minute).to("watt").magnitude
        yield row(f"stall_heat({torque} N·m, speed = {speed} rpm)", power, "W", PINT)
        mass = 4 * unit.quart * 820 * unit.kilogram / unit.meter**3
        heat = power * unit.watt * 5 * unit.second
        rise = (heat / (mass * 2100 * unit.joule / unit.kilogram / unit.kelvin)).to("kelvin").magnitude
        rest = "time = 5 s, fluid = 4 qt, density = 820 kg/m³, specific_heat = 2100 J/kg/K"
        yield row(f"stall_temperature_rise({shown(power)} W, {rest})", rise, "K", PINT)
    pull = (150 * unit.force_pound * 2.5 * unit.foot).to("newton*meter").magnitude
    yield row("lever_torque(150 lbf, arm = 2.5 ft)", pull, "N·m", PINT)


def engines():
    for litres, speed, filling, share in [(5, 700, 0.3, 0.06), (1.6, 2500, 0.55, 0.005)]:
        # A four-stroke fills in every second turn.
        exhaust = litres * unit.liter * speed / 2 / unit.minute * filling
        value = (exhaust * share).to("meter**3/hour").magnitude
        rest = f"speed = {speed} rpm, filling = {filling * 100:g} %, share = {share * 100:g} %"
        yield row(f"carbon_monoxide_given_off({litres} L, {rest})", value, "m³/h", PINT)


def vapours():
    volume = constants.R * 298.15 / 101325
    for grams, molar, room in [(200, 58.08, 60), (800, 92.14, 40), (28.01, 28.01, 1)]:
        level = grams / molar * volume / room * 1e6
        formula = f"vapour_level({grams} g, molar_mass = {molar}, volume = {room} m³)"
        yield f"{formula} | {shown(level)} ppm | 1e-3 rel | calc | {SCIPY}, ideal gas at 25 °C and 101.325 kPa"


def slopes():
    for distance, slope in [(200, 3), (-350, 1.5), (120, 10)]:
        error = distance * numpy.tan(numpy.radians(slope))
        yield row(f"level_error_on_slope({distance} mm, slope = {slope}°)", error, "mm", f"library numpy {numpy.__version__}, tan")
    per = (1 * unit.pint / (0.75 * unit.inch)).to("milliliter/millimeter").magnitude
    yield row("dipstick_volume(1 pt, before = 1/4 in, after = 1 in)", per, "mL/mm", PINT)


def twisted(diameter, pitch, stress):
    """ISO 898-7 on the least root that ISO 965-1 leaves a 6g thread; millimetres, N/mm² and N·m."""
    tolerance = 90 * pitch**0.4 * diameter**0.1
    root = diameter - 17 / 12 * math.sqrt(3) / 2 * pitch - (15 + 11 * pitch + tolerance) / 1000
    return math.pi / 16 * root**3 * stress / 1000


def bolts():
    source = "ISO 898-7 and ISO 965-1, formulas worked in Python"
    cases = [(8, 1, "8.8", 0.84 * 800), (10, 1.25, "10.9", 0.79 * 1040), (12, 1.25, "12.9", 0.75 * 1220), (20, 2.5, "8.8", 0.84 * 830)]
    for diameter, pitch, name, stress in cases:
        formula = f"bolt_twist_torque({diameter} mm, pitch = {pitch} mm, class = '{name}')"
        yield f"{formula} | {shown(twisted(diameter, pitch, stress))} N·m | 1e-6 rel | calc | {source}"
    formula = "bolt_twist_torque(10 mm, pitch = 1.25 mm, class = '8.8', at = 'yields')"
    yield f"{formula} | {shown(twisted(10, 1.25, 640 / math.sqrt(3)))} N·m | 1e-6 rel | calc | {source}"
    for size, threads, grade, stress in [("3/8", 24, "5", 0.84 * 120), ("1/2", 13, "8", 0.79 * 150), ("7/8", 14, "2", 0.84 * 60)]:
        inches = eval(size)
        stress = (stress * 1000 * unit.psi).to("megapascal").magnitude
        value = twisted(inches * 25.4, 25.4 / threads, stress)
        formula = f"bolt_twist_torque_inch({size} in, threads = {threads}, grade = '{grade}')"
        yield f"{formula} | {shown(value)} N·m | 1e-6 rel | calc | strengths of SAE J429; {source}"


def text():
    parts = [viscosity_indexes, viscosities, expansion, lines, flows, road, capacity]
    parts += [cylinders, stall, engines, vapours, slopes, bolts]
    return HEAD + "".join(f"{line}\n" for part in parts for line in part())


if __name__ == "__main__":
    if "--check" in sys.argv[1:]:
        sys.exit(None if FILE.read_text() == text() else f"{FILE} is not what the libraries give now")
    FILE.write_text(text())
