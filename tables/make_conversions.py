"""Make conversions.csv: how each unit of units.toml turns into the first of its kind, by the definitions of
unit_definitions.txt as Pint evaluates them with rational numbers.

usage: python tables/make_conversions.py src/witnessmark/data/conversions.csv

Loading Pint and its definitions takes longer than reading a recording; the table is exact all the same.
"""

import csv
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from pint import UnitRegistry

import witnessmark.data
from witnessmark.units import Unit, units

HEADER = ("label", "base", "factor", "offset")


def rows() -> Iterator[tuple[str, str, str, str]]:
    """Label, label of the base unit, factor and offset: figure in the base = figure * factor + offset."""
    definitions = Path(witnessmark.data.__file__).with_name("unit_definitions.txt")
    registry: UnitRegistry[Fraction] = UnitRegistry(
        str(definitions), non_int_type=Fraction, autoconvert_offset_to_baseunit=False
    )
    bases: dict[object, Unit] = {}
    for unit in units().values():
        here = registry.Unit(unit.expression)
        # The names of the dimensions part torque from energy, Pint parts one money from another.
        base = bases.setdefault((unit.dimension, here.dimensionality), unit)
        there = registry.Unit(base.expression)
        zero, one = (Fraction(registry.Quantity(Fraction(x), here).to(there).magnitude) for x in (0, 1))
        yield unit.label, base.label, str(one - zero), str(zero)


def main(out: Path) -> None:
    """Write the whole table."""
    with out.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows([HEADER, *rows()])


if __name__ == "__main__":
    main(Path(sys.argv[1]))
