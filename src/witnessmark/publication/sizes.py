"""Sizes of tools as a list prints them: `10, 12, 14 mm`, `3/8, 7/16 in`, `T15, T20`."""

from collections.abc import Iterable
from decimal import Decimal
from functools import cache

from witnessmark.data import read_toml
from witnessmark.house_style import digits, inches
from witnessmark.reading.sizes import SizeSaid

ACROSS_FLATS = ("mm", "in")


def joined_sizes(sizes: Iterable[SizeSaid]) -> str | None:
    """Each size once, smallest first, the unit behind the last of its system; None where there are none."""
    by_system: dict[str, set[Decimal]] = {}
    for each in sizes:
        by_system.setdefault(each.system, set()).add(each.size)
    parts = [_of_system(system, sorted(found)) for system, found in sorted(by_system.items(), key=_metric_first)]
    return ", ".join(parts) or None


@cache
def usual_tool(system: str) -> str:
    """The tool that a size goes with when none was said with it, by its system (mm, in, T, ...)."""
    table: dict[str, str] = read_toml("kit.toml")["tool_of_size"]
    return table.get(system, f"{system} bit")


def _metric_first(entry: tuple[str, set[Decimal]]) -> tuple[bool, str]:
    return entry[0] != "mm", entry[0]


def _of_system(system: str, sizes: list[Decimal]) -> str:
    if system in ACROSS_FLATS:
        return ", ".join(map(inches if system == "in" else digits, sizes)) + f" {system}"
    return ", ".join(f"{system}{digits(size)}" for size in sizes)
