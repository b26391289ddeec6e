"""How amounts are printed: as the manual has them, then converted, in brackets, to the manual's own precision."""

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from importlib.resources import files

from witnessmark.quantity import Amount
from witnessmark.units import convert, rounded_to

# Signs that stand close to their figure, after it or before it.
AFTER = frozenset({"°", "%"})
BEFORE = frozenset({"$", "£", "€"})
PLURAL = frozenset({"turn", "week", "month", "year"})


@dataclass(frozen=True, slots=True)
class _Beside:
    """One row of data/house_style.toml."""

    below: Decimal | None
    units: tuple[str, ...]
    digits: int
    places: int | None


def shown(amounts: Sequence[Amount]) -> str:
    """Amounts, one after the other where a value has stages, with the units of the other system in brackets.

    "35 N·m (26 lbf·ft)", "30–36 N·m (22–27 lbf·ft)", "30 N·m (22 lbf·ft), then 90°", "min 22.0 mm (0.866 in)".
    Raises KeyError for a unit that data/units.toml does not have.
    """
    return ", then ".join(f"{plain(amount)}{_in_brackets(amount)}" for amount in amounts)


def plain(amount: Amount) -> str:
    """One amount in its own unit alone: "35 N·m", "8–10 mm", "max 5%", "90°", "2 turns"."""
    prefix = f"{amount.bound} " if amount.bound in ("min", "max") else ""
    return prefix + _printed(amount.low, amount.high, amount.unit)


def _in_brackets(amount: Amount) -> str:
    row = _row(amount)
    if row is None:
        return ""
    converted = (
        _printed(_converted(amount.low, amount.unit, unit, row), _converted(amount.high, amount.unit, unit, row), unit)
        for unit in row.units
    )
    return f" ({', '.join(converted)})"


def _row(amount: Amount) -> _Beside | None:
    rows = _rows().get(amount.unit, ())
    return next((row for row in rows if row.below is None or amount.high < row.below), None)


@cache
def _rows() -> dict[str, tuple[_Beside, ...]]:
    text = (files("witnessmark") / "data" / "house_style.toml").read_text(encoding="utf-8")
    rows: dict[str, tuple[_Beside, ...]] = {}
    for row in tomllib.loads(text, parse_float=Decimal)["row"]:
        below = Decimal(row["below"]) if "below" in row else None
        beside = _Beside(below, tuple(row["beside"]), digits=row.get("digits", 2), places=row.get("places"))
        rows[row["unit"]] = (*rows.get(row["unit"], ()), beside)
    return rows


def _converted(x: Decimal, from_unit: str, to_unit: str, row: _Beside) -> Decimal:
    """x in the other unit, rounded to the decade nearest to what one step of the manual's last digit becomes there.

    Never coarser than whole numbers, but for figures that are round themselves (10000 km); and never to fewer
    significant digits than the row asks for.
    """
    y = convert(x, from_unit, to_unit)
    if row.places is not None or y == 0:
        return rounded_to(y, -(row.places or 0))
    last = _last_digit(x)
    step = abs(convert(Decimal(1).scaleb(last), from_unit, to_unit) - convert(Decimal(0), from_unit, to_unit))
    nearest = int(step.log10().to_integral_value())
    exponent = min(nearest, max(last, 0), y.adjusted() + 1 - row.digits)
    return rounded_to(y, exponent)


def _last_digit(x: Decimal) -> int:
    """The exponent of the last digit that counts: -1 for 2.5, 0 for 35 and 120, 3 for 15000."""
    whole, _, places = f"{abs(x):f}".partition(".")
    if places:
        return -len(places)
    # Three noughts and more are a round figure; fewer may have been measured.
    noughts = len(whole) - len(whole.rstrip("0"))
    return noughts if 3 <= noughts < len(whole) else 0


def _printed(low: Decimal, high: Decimal, unit: str) -> str:
    figures = _figure(low) if low == high else f"{_figure(low)}–{_figure(high)}"
    if unit in BEFORE:
        return f"{unit}{figures}"
    if unit in AFTER:
        return f"{figures}{unit}"
    return f"{figures} {unit}{'s' if unit in PLURAL and high != 1 else ''}"


def _figure(x: Decimal) -> str:
    """Plain digits, thousands parted by commas from 10,000 on."""
    return f"{x:,f}" if abs(x) >= 10_000 else f"{x:f}"


def digits(size: Decimal) -> str:
    """A size without trailing noughts: 10, 5.5."""
    return f"{size.normalize():f}"


def inches(size: Decimal) -> str:
    """A size in inches as it is marked on the tool: 7/16, 1 1/8; decimals where it is no sixty-fourth."""
    whole, part = divmod(Fraction(size), 1)
    if 64 % part.denominator:
        return digits(size)
    return " ".join(text for text in (str(whole) if whole or not part else "", str(part) if part else "") if text)
