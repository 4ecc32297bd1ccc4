"""Writes what each unit is worth in SI base units by others than ourselves, to tests/cases/quantity/units.csv, and
temperatures on three scales to temperatures.csv beside it.

    python3 -m venv /tmp/units && /tmp/units/bin/pip install -r tests/reference/requirements.txt
    /tmp/units/bin/python tests/reference/units.py

Columns of units.csv: the unit as bayhand spells it, its size in coherent base units (m, kg, s, A, K, turn), and where that
number comes from. A unit may have several rows. To add a unit, add it to PINT and, where there is a constant or
a printed factor for it, to SCIPY or SP811.
"""

import csv
import io
import pathlib
import sys

import pint
from scipy import constants

# As pint spells them. `turn` is our base of angle, so angles are asked for in turns, not in radians.
PINT = {
    "m": "meter", "kg": "kilogram", "s": "second", "A": "ampere", "K": "kelvin", "rev": "turn",
    "%": "percent", "‰": "permille", "ppm": "ppm", "ppb": "1e-9",
    "km": "kilometer", "cm": "centimeter", "mm": "millimeter", "µm": "micrometer", "in": "inch", "ft": "foot",
    "yd": "yard", "mi": "mile", "mil": "thou",
    "mm²": "millimeter**2", "cm²": "centimeter**2", "m²": "meter**2", "in²": "inch**2", "ft²": "foot**2",
    "m³": "meter**3", "L": "liter", "dL": "deciliter", "cL": "centiliter", "mL": "milliliter",
    "cm³": "centimeter**3", "mm³": "millimeter**3", "in³": "inch**3", "ft³": "foot**3", "gal": "gallon",
    "qt": "quart", "pt": "pint", "cup": "cup", "fl oz": "fluid_ounce", "imp gal": "imperial_gallon",
    "imp qt": "imperial_quart", "imp pt": "imperial_pint", "imp fl oz": "imperial_fluid_ounce",
    "mL/mm": "milliliter/millimeter",
    "g": "gram", "mg": "milligram", "µg": "microgram", "t": "metric_ton", "lb": "pound", "oz": "ounce",
    "short ton": "short_ton",
    "ms": "millisecond", "min": "minute", "h": "hour", "d": "day", "wk": "week",
    "°C": "delta_degC", "°F": "delta_degF", "Δ°C": "delta_degC", "Δ°F": "delta_degF",
    "m/s": "meter/second", "km/h": "kilometer/hour", "mph": "mile/hour", "m/s²": "meter/second**2",
    "gn": "standard_gravity",
    "N": "newton", "kN": "kilonewton", "kgf": "force_kilogram", "lbf": "force_pound", "ozf": "force_ounce",
    "N·m": "newton*meter", "N·cm": "newton*centimeter", "kgf·m": "force_kilogram*meter",
    "kgf·cm": "force_kilogram*centimeter", "lbf·ft": "force_pound*foot", "lbf·in": "force_pound*inch",
    "ozf·in": "force_ounce*inch",
    "Pa": "pascal", "mPa": "millipascal", "hPa": "hectopascal", "kPa": "kilopascal", "MPa": "megapascal", "GPa": "gigapascal",
    "bar": "bar", "mbar": "millibar", "psi": "psi", "ksi": "ksi", "kgf/cm²": "force_kilogram/centimeter**2",
    "atm": "standard_atmosphere", "Torr": "torr", "mmHg": "13595.1*kg/m**3*standard_gravity*millimeter",
    "inHg": "13595.1*kg/m**3*standard_gravity*inch", "mmH2O": "1000*kg/m**3*standard_gravity*millimeter",
    "inH2O": "1000*kg/m**3*standard_gravity*inch",
    "J": "joule", "kJ": "kilojoule", "MJ": "megajoule", "kcal": "kilocalorie", "Btu": "Btu_it",
    "W": "watt", "mW": "milliwatt", "kW": "kilowatt", "MW": "megawatt", "hp": "horsepower",
    "PS": "metric_horsepower", "Wh": "watt*hour", "kWh": "kilowatt*hour", "Btu/h": "Btu_it/hour",
    "L/min": "liter/minute", "L/s": "liter/second", "L/h": "liter/hour", "mL/s": "milliliter/second",
    "mL/min": "milliliter/minute", "m³/h": "meter**3/hour", "gal/min": "gallon/minute", "gal/h": "gallon/hour",
    "qt/min": "quart/minute", "imp gal/min": "imperial_gallon/minute", "ft³/min": "foot**3/minute",
    "°": "degree", "rad": "radian", "rpm": "turn/minute", "Hz": "1/second", "1/min": "1/minute",
    "mm²/s": "millimeter**2/second", "cSt": "centistokes", "Pa·s": "pascal*second",
    "mPa·s": "millipascal*second", "cP": "centipoise",
    "kg/m³": "kilogram/meter**3", "g/cm³": "gram/centimeter**3", "g/mL": "gram/milliliter",
    "kg/L": "kilogram/liter", "g/L": "gram/liter", "lb/ft³": "pound/foot**3", "lb/gal": "pound/gallon",
    "mg/m³": "milligram/meter**3",
    "mA": "milliampere", "V": "volt", "mV": "millivolt", "kV": "kilovolt", "Ω": "ohm", "mΩ": "milliohm",
    "kΩ": "kiloohm", "MΩ": "megaohm", "Ah": "ampere*hour", "mAh": "milliampere*hour",
}

# In turns where pint answers in radians.
IN_TURNS = {"rev": "turn", "°": "turn", "rad": "turn", "rpm": "turn/second"}

SCIPY = {
    "in": constants.inch, "ft": constants.foot, "yd": constants.yard, "mi": constants.mile, "mil": constants.mil,
    "L": constants.liter, "gal": constants.gallon_US, "fl oz": constants.fluid_ounce_US,
    "imp gal": constants.gallon_imp, "imp fl oz": constants.fluid_ounce_imp,
    "g": constants.gram, "t": constants.metric_ton, "lb": constants.pound, "oz": constants.ounce,
    "short ton": constants.short_ton,
    "min": constants.minute, "h": constants.hour, "d": constants.day, "wk": constants.week,
    "°C": constants.convert_temperature(1, "C", "K") - constants.convert_temperature(0, "C", "K"),
    "°F": constants.degree_Fahrenheit,
    "km/h": constants.kmh, "mph": constants.mph, "gn": constants.g,
    "kgf": constants.kgf, "lbf": constants.lbf,
    "bar": constants.bar, "psi": constants.psi, "atm": constants.atm, "Torr": constants.torr,
    "Btu": constants.Btu, "hp": constants.hp, "kWh": constants.kilo * constants.hour,
    "kcal": constants.kilo * constants.calorie,
}

# Printed factors of NIST SP 811 (2008), appendix B.8, to the digits printed there.
SEEN = "NIST SP 811 B.8"
MEMORY = "NIST SP 811 B.8, from memory"
EXACT = "exact definition, NIST SP 811 B.8"
SP811 = [
    ("in", "2.54E-02", SEEN), ("mi", "1.609344E+03", SEEN), ("gal", "3.785412E-03", SEEN),
    ("gal", "3.785411784E-03", EXACT), ("qt", "9.463529E-04", SEEN), ("qt", "9.46352946E-04", EXACT),
    ("pt", "4.731765E-04", SEEN), ("pt", "4.73176473E-04", EXACT), ("fl oz", "2.957353E-05", SEEN),
    ("fl oz", "2.95735295625E-05", EXACT), ("imp gal", "4.54609E-03", SEEN), ("imp qt", "1.1365225E-03", EXACT),
    ("lbf·ft", "1.355818E+00", SEEN), ("lbf·in", "1.129848E-01", SEEN), ("psi", "6.894757E+03", SEEN),
    ("bar", "1E+05", SEEN), ("hp", "7.456999E+02", SEEN), ("PS", "7.354988E+02", SEEN),
    ("PS", "7.3549875E+02", EXACT), ("gal/min", "6.30902E-05", SEEN), ("lb", "4.5359237E-01", EXACT),
    ("lbf", "4.4482216152605E+00", EXACT), ("kgf·m", "9.80665E+00", EXACT), ("in³", "1.6387064E-05", EXACT),
    ("ft", "3.048E-01", MEMORY), ("yd", "9.144E-01", MEMORY), ("mil", "2.54E-05", MEMORY),
    ("in²", "6.4516E-04", MEMORY), ("ft²", "9.290304E-02", MEMORY), ("in³", "1.638706E-05", MEMORY),
    ("ft³", "2.831685E-02", MEMORY), ("cup", "2.365882E-04", MEMORY), ("imp fl oz", "2.841306E-05", MEMORY),
    ("lb", "4.535924E-01", MEMORY), ("oz", "2.834952E-02", MEMORY), ("short ton", "9.071847E+02", MEMORY),
    ("km/h", "2.777778E-01", MEMORY), ("mph", "4.4704E-01", MEMORY), ("gn", "9.80665E+00", MEMORY),
    ("kgf", "9.80665E+00", MEMORY), ("lbf", "4.448222E+00", MEMORY), ("ozf", "2.780139E-01", MEMORY),
    ("ozf·in", "7.061552E-03", MEMORY), ("ksi", "6.894757E+06", MEMORY), ("kgf/cm²", "9.80665E+04", MEMORY),
    ("atm", "1.01325E+05", MEMORY), ("Torr", "1.333224E+02", MEMORY), ("mmHg", "1.333224E+02", MEMORY),
    ("inHg", "3.386389E+03", MEMORY), ("mmH2O", "9.80665E+00", MEMORY), ("inH2O", "2.490889E+02", MEMORY),
    ("Btu", "1.055056E+03", MEMORY), ("kcal", "4.184E+03", MEMORY), ("Btu/h", "2.930711E-01", MEMORY),
    ("kWh", "3.6E+06", MEMORY), ("ft³/min", "4.719474E-04", MEMORY), ("lb/ft³", "1.601846E+01", MEMORY),
    ("lb/gal", "1.198264E+02", MEMORY), ("cP", "1E-03", MEMORY), ("cSt", "1E-06", MEMORY),
    ("°F", "5.555556E-01", MEMORY), ("d", "8.64E+04", MEMORY),
    ("money", "1", "definition: its own base"),
]


def rows():
    registry = pint.UnitRegistry()
    for unit, spelled in PINT.items():
        asked = registry.Quantity(1.0, registry.Unit("")) * registry.parse_expression(spelled)
        size = asked.to(IN_TURNS[unit]) if unit in IN_TURNS else asked.to_base_units()
        yield unit, repr(float(size.magnitude)), f"pint {pint.__version__}"
    for unit, size in SCIPY.items():
        yield unit, repr(float(size)), "scipy 1.17.1"
    yield from SP811


def temperatures():
    for fahrenheit in [*range(-60, 320, 10), -459.67, 32, 68, 98.6, 163, 212]:
        kelvin = constants.convert_temperature(fahrenheit, "F", "K")
        celsius = constants.convert_temperature(fahrenheit, "F", "C")
        yield fahrenheit, repr(float(celsius)), repr(float(kelvin))


def write(name, header, lines):
    target = pathlib.Path(__file__).parent.parent / "cases" / "quantity" / name
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(lines)
    if "--check" not in sys.argv:
        target.write_text(text.getvalue(), encoding="utf-8")
    elif target.read_text(encoding="utf-8") != text.getvalue():
        sys.exit(f"{target} is not what this writes")


def main():
    write("units.csv", ["unit", "base units", "source"], rows())
    write("temperatures.csv", ["°F", "°C", "K (scipy 1.17.1)"], temperatures())


if __name__ == "__main__":
    main()
