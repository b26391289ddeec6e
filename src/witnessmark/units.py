"""Units of the trade and exact conversion between them.

The units stand in data/units.toml, their definitions in data/unit_definitions.txt, which Pint evaluates with rational
numbers: a conversion is exact wherever the definition is, and rounded only when it becomes a Decimal of 28 digits.
"""

import re
import unicodedata
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction
from functools import cache
from importlib.resources import as_file, files
from typing import TYPE_CHECKING, Literal

from witnessmark.data import read_toml

if TYPE_CHECKING:
    from pint import UnitRegistry

System = Literal["metric", "us", "imperial", "any"]

DATA = files("witnessmark") / "data"
DIGITS = Context(prec=28, rounding=ROUND_HALF_UP)
JOINERS = re.compile(r"[\s\-–.*·⋅•∙×]+")


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: how it is printed, said and defined. The keys are explained at the head of data/units.toml.

    The four tuples of words hold token sequences as they are said, one string each, tokens parted by a space.
    """

    label: str
    dimension: str
    expression: str
    system: System
    si: str
    written: tuple[str, ...]
    spoken: tuple[str, ...]
    after_number: tuple[str, ...]
    short: tuple[str, ...]
    doubtful: tuple[str, ...]


@cache
def units() -> dict[str, Unit]:
    """Every unit by its label, in the order of data/units.toml."""
    table = read_toml("units.toml")
    found = {}
    for row in table["unit"]:
        label, dimension = row["label"], row["dimension"]
        found[label] = Unit(
            label,
            dimension,
            expression=row["pint"],
            system=row["system"],
            si=row.get("si") or table["si"].get(dimension, label),
            written=tuple(row.get("written", ())),
            spoken=_spelled_out(row.get("spoken", ())),
            after_number=_spelled_out(row.get("after_number", ())),
            short=_spelled_out(row.get("short", ())),
            doubtful=_spelled_out(row.get("doubtful", ())),
        )
    return found


def _spelled_out(forms: Iterable[str]) -> tuple[str, ...]:
    """Each "foot pound[s]" without and with what its brackets hold."""
    spelled: dict[str, None] = {}
    for form in forms:
        spelled[re.sub(r"\[\w*\]", "", form)] = spelled[re.sub(r"[\[\]]", "", form)] = None
    return tuple(spelled)


def unit(label: str) -> Unit:
    """The unit of a label such as "N·m". Raises KeyError for a label that data/units.toml does not have."""
    try:
        return units()[label]
    except KeyError:
        raise KeyError(f"no unit has the label {label!r}; the labels stand in data/units.toml") from None


def dimension(label: str) -> str:
    """What the unit of a label measures: torque, length, volume, pressure, angle, temperature, mass, force, voltage,
    current, charge, power, energy, resistance, frequency, capacitance, rotation, speed, time, ratio or money.

    Raises KeyError for an unknown label.
    """
    return unit(label).dimension


def label_of(written: str) -> str:
    """The label of a unit as manuals print it: "ft-lb", "lb ft" and "lbf·ft" are all "lbf·ft".

    Capitals count only where they tell two units apart (mΩ, MΩ). Raises KeyError when no unit is printed so.
    """
    exact, caseless = _printed_forms()
    form = _joined(written)
    label = exact.get(form) or caseless.get(form.casefold())
    if label is None:
        raise KeyError(f"no unit is printed as {written!r}; the printed forms stand in data/units.toml")
    return label


@cache
def _printed_forms() -> tuple[dict[str, str], dict[str, str]]:
    """Labels by printed form, and by case-folded form where that form means one unit only."""
    exact: dict[str, str] = {}
    folded: defaultdict[str, set[str]] = defaultdict(set)
    for label, known in units().items():
        for form in map(_joined, (label, *known.written)):
            exact[form] = label
            folded[form.casefold()].add(label)
    return exact, {form: labels.pop() for form, labels in folded.items() if len(labels) == 1}


def _joined(written: str) -> str:
    return JOINERS.sub("·", unicodedata.normalize("NFKC", written.strip()).strip(".·"))


def convert(x: Decimal, from_label: str, to_label: str) -> Decimal:
    """A figure in one unit as the same quantity in another, temperatures with their offset: 35 N·m is 25.81... lbf·ft.

    Raises KeyError for an unknown label, ValueError when the two units do not measure the same thing (each money is
    its own).
    """
    if from_label == to_label:
        return x
    factor, offset = _line(from_label, to_label)
    exact = Fraction(x) * factor + offset
    return DIGITS.divide(Decimal(exact.numerator), Decimal(exact.denominator))


def si(x: Decimal, label: str) -> tuple[Decimal, str]:
    """A figure in the unit in which facts carry its dimension, and that unit's label.

    N·m, mm (km for what is told in km or miles), L, kPa, °, °C, kg, N, V, A, Ah, W, Wh, Ω, Hz, µF, rpm, km/h, s, %;
    money stays as it is. Raises KeyError for an unknown label.
    """
    to_label = unit(label).si
    return convert(x, label, to_label), to_label


def rounded_to(x: Decimal, exponent: int) -> Decimal:
    """A figure rounded to whole 10**exponent, a half away from zero as the trade rounds.

    exponent: 0 for whole numbers, -1 for tenths, 1 for tens. Tens and more stay plain digits (120, not 1.2E+2).
    """
    rounded = x.quantize(Decimal(1).scaleb(exponent), rounding=ROUND_HALF_UP)
    if exponent > 0:
        rounded = rounded.quantize(Decimal(1))
    return abs(rounded) if rounded.is_zero() else rounded


@cache
def _line(from_label: str, to_label: str) -> tuple[Fraction, Fraction]:
    """Factor and offset of the straight line from one unit to the other; every unit of the trade lies on one."""
    source, target = unit(from_label), unit(to_label)
    registry = _registry()
    here, there = registry.Unit(source.expression), registry.Unit(target.expression)
    # The names of the dimensions part torque from energy, Pint parts one money from another.
    if source.dimension != target.dimension or here.dimensionality != there.dimensionality:
        raise ValueError(f"{from_label} ({source.dimension}) cannot be converted to {to_label} ({target.dimension})")
    zero, one = (Fraction(registry.Quantity(Fraction(x), here).to(there).magnitude) for x in (0, 1))
    return one - zero, zero


@cache
def _registry() -> "UnitRegistry[Fraction]":
    # Pint costs a third of a second to import: only a run that converts pays for it.
    from pint import UnitRegistry

    with as_file(DATA / "unit_definitions.txt") as definitions:
        return UnitRegistry(str(definitions), non_int_type=Fraction, autoconvert_offset_to_baseunit=False)
