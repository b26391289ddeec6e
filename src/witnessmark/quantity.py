"""Amounts with units and where they come from: what a caption said or a table row specifies."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Bound = Literal["exact", "range", "min", "max"]


@dataclass(frozen=True, slots=True)
class Amount:
    """One figure or range in one unit.

    low, high: the ends, equal where bound is "exact"; low alone counts for "min", high alone for "max" (the other end is equal to it).
    unit: a label of data/units.toml, such as "N·m", "lbf·ft", "mm", "L", "°". Decimals keep the digits that were said or printed.
    """

    low: Decimal
    high: Decimal
    unit: str
    bound: Bound = "exact"


@dataclass(frozen=True, slots=True)
class CaptionSpan:
    """Where in the recording something was said. start, end: seconds. said: the captions' own words."""

    start: float
    end: float
    said: str


@dataclass(frozen=True, slots=True)
class TableRow:
    """Where in a specification table something stands. file: its name. row: 1-based line in the file. source: the manual that the row cites."""

    file: str
    row: int
    source: str


Origin = CaptionSpan | TableRow


@dataclass(frozen=True, slots=True)
class Value:
    """A value that may be shown to a reader: amounts in order (stages), or a grade, and the place that stands behind it."""

    amounts: tuple[Amount, ...]
    grade: str | None
    printed: str
    origin: Origin
