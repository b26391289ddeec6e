"""Sizes of sockets, wrenches, keys and bits as tools are marked with them: `10 mm`, `7/16 in`, `8 mm hex`, `T20`."""

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any, Literal, cast

from witnessmark.data import read_toml
from witnessmark.specs.written import Unreadable, match_number, match_unit, plain_form
from witnessmark.units import convert

System = Literal["mm", "in", "T", "E", "TP", "PH", "PZ", "JIS", "XZN", "P", "R", "slot"]
Drive = Literal["hex", "key", "torx", "external torx", "cross", "triple square", "pentalobe", "square", "slot"]

# A wrench of either goes on where both differ by no more, in mm: 19 mm and 3/4 in do, 11 mm and 7/16 in do not.
_SAME_FIT = Decimal("0.1")
_LARGEST_MM = 120
_LARGEST_NUMBERED = 100
_FIGURE = re.compile(r"(?<![0-9.])(?:#|no\.? ?|size )?(?=[.]?[0-9])", re.I)
_BETWEEN_SIZES = re.compile(r" ?(?:,|;|\bor\b|\band\b|\+|(?<=[a-z\"]) ?/)(?: ?\bor\b)? ?", re.I)


@dataclass(frozen=True, slots=True)
class ToolSize:
    """One size of a tool.

    system: `mm` or `in` across flats, else the letters on the bit. size: in mm or in, else the number of the bit.
    drive: the shape it takes hold of (`hex` a head, `key` an internal hexagon, ...); None where that was not said.
    """

    system: System
    size: Decimal
    drive: Drive | None
    printed: str


def same_size(a: ToolSize, b: ToolSize) -> bool:
    """Whether one tool serves for both: no two different drives, and equal sizes, or mm and in within 0.1 mm."""
    if a.drive and b.drive and a.drive != b.drive:
        return False
    if a.system == b.system:
        return a.size == b.size
    if {a.system, b.system} == {"mm", "in"}:
        return abs(convert(a.size, a.system, "mm") - convert(b.size, b.system, "mm")) <= _SAME_FIT
    return False


@cache
def _marks() -> dict[str, Any]:
    return read_toml("tool_sizes.toml")


@cache
def _lettered() -> re.Pattern[str]:
    letters = {letter: entry["name"] for entry in _marks()["system"] for letter in entry["letters"]}
    longest_first = sorted(letters, key=lambda letter: (-len(letter), letter))
    return re.compile(
        rf"(?<![a-z])(?P<letters>{'|'.join(longest_first)})[ -]?#?"
        r"(?P<size>[0-9]{1,3})(?![0-9.]| ?mm| ?in)(?:h|s)?(?![a-z])",
        re.I,
    )


def _system_of_letters(letters: str) -> tuple[System, Drive]:
    entry = next(entry for entry in _marks()["system"] if letters.upper() in entry["letters"])
    return cast(System, entry["name"]), cast(Drive, entry["drive"])


def _longest(text: str, words: dict[str, str]) -> str | None:
    """Meaning of the longest of the words that stands whole in a text."""
    found = [word for word in words if re.search(rf"(?<![a-z]){re.escape(word)}(?![a-z])", text)]
    return words[max(found, key=len)] if found else None


def _system_of_words(text: str) -> tuple[System, Drive] | None:
    words = {word: entry["name"] for entry in _marks()["system"] for word in entry["words"]}
    name = _longest(text, words)
    drives = {entry["name"]: entry["drive"] for entry in _marks()["system"]}
    return (cast(System, name), cast(Drive, drives[name])) if name else None


def _drive_of_words(text: str) -> Drive | None:
    return cast(
        Drive | None, _longest(text, {word: drive for drive, words in _marks()["drive"].items() for word in words})
    )


def parse_tool_size(text: str) -> ToolSize:
    """Read one tool size with or without words around it: `8 mm Allen key`, `3/8\\" socket`, `Torx T20`, `#2 Phillips`.

    Raises Unreadable where no size stands there, or one that no tool has.
    """
    plain = plain_form(text)
    folded = plain.casefold().replace("®", "")
    if match := _lettered().search(plain):
        system, drive = _system_of_letters(match["letters"])
        spelled = _system_of_words(folded)
        if spelled and system == "T":
            system, drive = spelled
        return _sensible(ToolSize(system, Decimal(match["size"]), drive, text.strip()))
    figure = _FIGURE.search(plain)
    found = match_number(plain, figure.end()) if figure else None
    if found is None:
        raise Unreadable(
            f"{plain[:40]!r} has no size",
            "write a size such as 10 mm, 3/8 in, 8 mm hex, T20, E14 or PH2, or leave it empty",
        )
    size, end = found
    unit = match_unit(plain, end + plain.startswith((" ", "-"), end))
    if unit and unit[0] == "mm" and "/" in plain[:end]:
        raise Unreadable(f"{plain[:40]!r} may be two sizes or a fraction", "write two sizes as 13 mm, 15 mm")
    if unit and unit[0] in ("mm", "in"):
        return _sensible(ToolSize(cast(System, unit[0]), size, _drive_of_words(folded), text.strip()))
    if (named := _system_of_words(folded)) and named[0] != "slot":
        return _sensible(ToolSize(named[0], size, named[1], text.strip()))
    raise Unreadable(
        f"{plain[:40]!r} has a figure without mm, in or the letters of a bit",
        "write a size such as 10 mm, 3/8 in, T20, E14 or PH2",
    )


def _sensible(size: ToolSize) -> ToolSize:
    if size.system in ("mm", "in"):
        sensible = 0 < convert(size.size, size.system, "mm") <= _LARGEST_MM
    else:
        sensible = 0 <= size.size <= _LARGEST_NUMBERED
    if not sensible:
        raise Unreadable(
            f"{size.printed[:40]!r} is no size of a hand tool", "write the size across flats, or the number of the bit"
        )
    return size


def parse_tool_sizes(text: str) -> tuple[ToolSize, ...]:
    """Read a cell of one or more sizes: `13 mm`, `10 mm or 3/8 in`, `13 mm and 15 mm`.

    A tool's name without a figure (`pin spanner`) gives none. Raises Unreadable where a part with a figure cannot be
    read.
    """
    plain = plain_form(text)
    parts = [part for part in _BETWEEN_SIZES.split(plain) if re.search("[0-9]", part)]
    return tuple(parse_tool_size(part) for part in parts)
