"""Conversions against published factors and independent libraries."""

import csv
import re
from decimal import Decimal
from pathlib import Path

import pint
import pytest
from astropy import units as astropy_units
from astropy.units import imperial

from witnessmark.units import convert, units

FACTORS = Path(__file__).parents[3] / "shared" / "sources" / "t1_unit_factors.csv"

# Names in the table of factors that are not our labels.
LABELS = {
    "lbf.ft": "lbf·ft",
    "lbf.in": "lbf·in",
    "ozf.in": "ozf·in",
    "kgf.m": "kgf·m",
    "kgf.cm": "kgf·cm",
    "N.m": "N·m",
    "kgf/cm2": "kgf/cm²",
    "inHg(conv)": "inHg",
    "US gallon": "gal",
    "US quart": "qt",
    "US pint": "pt",
    "US fl oz": "fl oz",
    "imp gallon": "imp gal",
    "imp quart": "imp qt",
    "imp pint": "imp pt",
    "inch": "in",
    "thou (mil)": "thou",
    "foot": "ft",
    "mile": "mi",
    "hp(550)": "hp",
    "metric hp": "PS",
    "cu in": "in³",
    "cm3": "cm³",
    "mile/h": "mph",
}


def table_of_factors() -> list[tuple[str, str, str]]:
    """Rows whose two units we have: our labels and the factor that GNU Units 2.22 prints."""
    if not FACTORS.exists():
        return []
    rows = []
    with FACTORS.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            one, other = (LABELS.get(name, name) for name in row["conversion"].split(" -> "))
            if one in units() and other in units():
                rows.append((one, other, row["gnu_units_2.22"]))
    return rows


@pytest.mark.skipif(not FACTORS.exists(), reason="the table of factors is not here")
def test_the_table_of_factors_is_used() -> None:
    assert len(table_of_factors()) >= 28


@pytest.mark.parametrize(("one", "other", "factor"), table_of_factors())
def test_gnu_units(one: str, other: str, factor: str) -> None:
    """GNU Units 2.22, definitions.units, 15 digits; Pint 0.25.3 and scipy 1.17.1 agree with it to 1e-15."""
    assert convert(Decimal(1), one, other) == pytest.approx(Decimal(factor), rel=Decimal("2e-15"))


@pytest.mark.parametrize(
    ("label", "in_si", "factor"),
    [
        ("lbf·ft", "N·m", "1.355818"),
        ("lbf·in", "N·m", "0.1129848"),
        ("kgf·m", "N·m", "9.80665"),
        ("kgf/cm²", "Pa", "98066.5"),
        ("inHg", "Pa", "3386.389"),
        # from memory
        ("ozf·in", "N·m", "0.007061552"),
    ],
)
def test_nist_sp_811(label: str, in_si: str, factor: str) -> None:
    """NIST SP 811, appendices B.8 and B.9, to the digits printed there, as quoted by public unit tests."""
    published = Decimal(factor)
    assert convert(Decimal(1), label, in_si).quantize(published) == published


def test_ounce_force_inches_in_a_newton_meter() -> None:
    """141.61193 in the torque table of me-systeme.de."""
    assert convert(Decimal(1), "N·m", "ozf·in").quantize(Decimal("0.00001")) == Decimal("141.61193")


@pytest.mark.parametrize(("celsius", "fahrenheit"), [("-40", "-40"), ("0", "32"), ("37", "98.6"), ("100", "212")])
def test_fixed_points_of_temperature(celsius: str, fahrenheit: str) -> None:
    """t/°F = 9/5 t/°C + 32, NIST SP 811, appendix B.8, from memory."""
    assert convert(Decimal(celsius), "°C", "°F") == Decimal(fahrenheit)
    assert convert(Decimal(fahrenheit), "°F", "°C") == Decimal(celsius)


# astropy rounds its pound-force (1.4e-8 high) and its gallon (1.4e-9 high).
ASTROPY_TOLERANCE = Decimal("2e-8")


@pytest.mark.parametrize(
    ("label", "theirs", "to_label", "to_theirs"),
    [
        ("lbf·ft", imperial.lbf * imperial.ft, "N·m", astropy_units.N * astropy_units.m),
        ("lbf·in", imperial.lbf * imperial.inch, "N·m", astropy_units.N * astropy_units.m),
        ("psi", imperial.psi, "kPa", astropy_units.kPa),
        ("gal", imperial.gallon, "L", astropy_units.l),
        ("qt", imperial.quart, "L", astropy_units.l),
        ("pt", imperial.pint, "mL", astropy_units.ml),
        ("fl oz", imperial.fluid_oz, "mL", astropy_units.ml),
        ("in", imperial.inch, "mm", astropy_units.mm),
        ("thou", imperial.mil, "mm", astropy_units.mm),
        ("mi", imperial.mi, "km", astropy_units.km),
        ("yd", imperial.yd, "m", astropy_units.m),
        ("lb", imperial.lb, "kg", astropy_units.kg),
        ("oz", imperial.oz, "g", astropy_units.g),
        ("ton", imperial.ton, "kg", astropy_units.kg),
        ("hp", imperial.hp, "W", astropy_units.W),
        ("turn", astropy_units.cycle, "°", astropy_units.deg),
        ("year", astropy_units.yr, "d", astropy_units.d),
    ],
)
def test_astropy(label: str, theirs: astropy_units.UnitBase, to_label: str, to_theirs: astropy_units.UnitBase) -> None:
    """astropy.units.imperial."""
    factor = Decimal(float(theirs.to(to_theirs)))
    assert convert(Decimal(1), label, to_label) == pytest.approx(factor, rel=ASTROPY_TOLERANCE)


# Pint's names where they differ from those of our own definitions.
PINT_NAMES = {
    "us_gallon": "gallon",
    "us_quart": "quart",
    "us_pint": "pint",
    "us_fluid_ounce": "fluid_ounce",
    "inch_of_mercury": "inHg",
    "degree_celsius": "degree_Celsius",
    "degree_fahrenheit": "degree_Fahrenheit",
    "pound_force": "force_pound",
    "ounce_force": "force_ounce",
    "btu": "Btu_it",
}


@pytest.fixture(scope="module")
def full_registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry()


@pytest.mark.parametrize(
    "label", [label for label, unit in units().items() if unit.dimension not in ("money", "ratio") and label != "inH₂O"]
)
def test_pint_itself(label: str, full_registry: pint.UnitRegistry[float]) -> None:
    """The default registry of Pint, which our own short file of definitions stands in for.

    Its inch of water is that of 39 °F, ours the conventional one.
    """
    unit = units()[label]

    def theirs(expression: str) -> str:
        return re.sub(r"[a-z_]+", lambda name: PINT_NAMES.get(name[0], name[0]), expression)

    quantity = full_registry.Quantity(100.0, theirs(unit.expression)).to(theirs(units()[unit.si].expression))
    assert float(convert(Decimal(100), label, unit.si)) == pytest.approx(quantity.magnitude, rel=1e-9)


def test_conventional_inch_of_water() -> None:
    """249.0889 Pa: NIST SP 811, appendix B.8, from memory."""
    assert convert(Decimal(1), "inH₂O", "Pa").quantize(Decimal("0.0001")) == Decimal("249.0889")
