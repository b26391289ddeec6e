"""Which threads the size of a head, key or bit can mean.

One thread wears several heads (an M8 takes a 10, 12 or 13 mm spanner, an M10 a 13, 14, 15, 16 or 17) and one head
several threads, so a head size narrows a fastener down and never settles it. Standards differ, and so do makers:
a size that is absent here says nothing.

Set screws are left out: they carry no preload, and their small keys would make every key look as if it could turn
a thread far larger. Hexalobular sizes up to T30 are listed with the thread of the standards alone: larger screws
have them, but the bit gives way first. Heads of what is no bolt (drain and spark plugs, hollow bolts, pipe nuts,
bearing cups) are not listed either.
"""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Literal

from witnessmark.specs.threads import Thread, fastener_rows, thread

Drive = Literal["hex head", "12-point head", "key"]

# A decimal inch is said and printed to three places: 0.438 for 7/16.
_INCH_TOLERANCE = Fraction(1, 1000)


@dataclass(frozen=True, slots=True)
class HeadUse:
    """One thing a head size can mean. thread: the coarse thread of that nominal size. drive: what the tool grips.

    standard: the standard or custom that pairs the two; source: where the pair was found.
    """

    thread: Thread
    drive: str
    standard: str
    source: str


def threads_of(system: str, size: Decimal, drive: Drive | None = None) -> tuple[HeadUse, ...]:
    """Everything that a head, key or bit of one size can turn, smallest thread first.

    system: mm, in, T, E, PH or PZ; nothing is known of any other. size: mm or inches across flats, or the number of a
    T, E, PH or PZ size. drive: what the tool grips, for the systems mm and in; None, where that is not known, takes
    every drive. A "hex head" is never a 12-point one.
    Empty where the size is not known, which says nothing about the fastener.
    """
    wanted = Fraction(size)
    allowance = _INCH_TOLERANCE if system == "in" else 0
    return tuple(
        use
        for known, use in _uses_by_system().get(system, ())
        if abs(known - wanted) <= allowance and (drive is None or system not in ("mm", "in") or use.drive == drive)
    )


@cache
def _uses_by_system() -> dict[str, tuple[tuple[Fraction, HeadUse], ...]]:
    found: dict[str, list[tuple[Fraction, HeadUse]]] = {}
    for row in fastener_rows("heads"):
        use = HeadUse(thread(row["thread"]), row["drive"], row["standard"], row["source"])
        found.setdefault(row["system"], []).append((_number(row["size"]), use))
    return {system: tuple(sorted(uses, key=lambda each: each[1].thread.diameter)) for system, uses in found.items()}


def _number(text: str) -> Fraction:
    """`13`, `5.5`, `7/16` or `1 1/8` as an exact number."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))
