"""Why a value that differs from its specification was probably said."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any

from witnessmark.data import read_toml
from witnessmark.proof.tolerance import agrees, same_figure
from witnessmark.quantity import Amount
from witnessmark.specs.table import SpecRow
from witnessmark.units import convert, dimension, rounded_to


@cache
def trade_units() -> dict[str, tuple[str, ...]]:
    """Units that the trade takes for one another, by what they measure (data/slips.toml)."""
    table: dict[str, list[str]] = _slips()["units"]
    return {what: tuple(labels) for what, labels in table.items()}


@cache
def _sound_alike() -> tuple[frozenset[Decimal], ...]:
    return tuple(frozenset(map(Decimal, pair)) for pair in _slips()["sound_alike"])


@cache
def _slips() -> dict[str, Any]:
    return read_toml("slips.toml")


@dataclass(frozen=True, slots=True)
class Cause:
    """A likely slip. name: unit, teen-ty, transposed, decimal, other-row, half-or-double or difference. text: one clause for a reader."""

    name: str
    text: str


def likely_cause(said: Amount, row: SpecRow, amount: Amount, table_rows: Sequence[SpecRow]) -> Cause:
    """The first slip that would turn the specified amount into the one said."""
    for find in (_unit_slip, _teen, _transposed, _decimal):
        cause = find(said, amount)
        if cause:
            return cause
    other = next(
        (r for r in table_rows if r.item != row.item and r.kind == row.kind and any(_fits(said, a) for a in r.amounts)),
        None,
    )
    if other:
        return Cause(
            "other-row",
            f"{other.printed} is the value of the {other.item} ({other.origin.file} row {other.origin.row})",
        )
    return _half_or_double(said, amount) or Cause("difference", "the figure differs from the table")


def slip_of_size(said: Amount, amount: Amount) -> bool:
    """Whether a unit or a decimal point explains how far apart two amounts are."""
    return _unit_slip(said, amount) is not None or _decimal(said, amount) is not None


def _fits(said: Amount, amount: Amount) -> bool:
    return dimension(said.unit) == dimension(amount.unit) and agrees(said, amount)


def _unit_slip(said: Amount, amount: Amount) -> Cause | None:
    for unit in trade_units().get(dimension(said.unit), ()):
        if unit != said.unit and agrees(Amount(said.low, said.high, unit, said.bound), amount):
            return Cause("unit", f"the figure is right in {unit}: the unit was said wrong")
    return None


def _expected(said: Amount, amount: Amount) -> Iterable[Decimal]:
    """The specified figure in the unit said, as it would be rounded, both ends of a range."""
    for end in dict.fromkeys((amount.low, amount.high)):
        there = convert(end, amount.unit, said.unit)
        yield from dict.fromkeys((rounded_to(there, 0), rounded_to(there, -1), there))


def _teen(said: Amount, amount: Amount) -> Cause | None:
    for meant in _expected(said, amount):
        hundreds = said.low // 100 == meant // 100
        if hundreds and frozenset((said.low % 100, meant % 100)) in _sound_alike():
            return Cause("teen-ty", f"{said.low:f} and {meant:f} sound alike")
    return None


def _transposed(said: Amount, amount: Amount) -> Cause | None:
    for meant in _expected(said, amount):
        one, other = f"{said.low.normalize():f}", f"{meant.normalize():f}"
        if (
            one != other
            and len(one) == len(other) > 1
            and sorted(one) == sorted(other)
            and one.find(".") == other.find(".")
        ):
            return Cause("transposed", f"the digits of {other} are turned round")
    return None


def _decimal(said: Amount, amount: Amount) -> Cause | None:
    for power in (1, -1, 2, -2):
        shifted = Amount(said.low.scaleb(power), said.high.scaleb(power), said.unit, said.bound)
        exact = amount.low == amount.high and same_figure(shifted.low, said.unit, amount.low, amount.unit)
        if exact or (amount.low != amount.high and agrees(shifted, amount)):
            return Cause("decimal", "the decimal point is in the wrong place")
    return None


def _half_or_double(said: Amount, amount: Amount) -> Cause | None:
    for factor, text in ((Decimal(2), "half"), (Decimal("0.5"), "double")):
        if agrees(Amount(said.low * factor, said.high * factor, said.unit, said.bound), amount):
            return Cause("half-or-double", f"it is {text} of what the table says")
    return None
