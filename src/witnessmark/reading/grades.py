"""Grades of fluids and the like as they are spoken: "ten w forty", "dot four", "GL 5"."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from witnessmark.language.numbers import Number

_VISCOSITY = re.compile(r"(\d{1,3})w-?(\d{1,3})$")
PREFIXES = {
    ("dot",): "DOT",
    ("sae",): "SAE",
    ("gl",): "GL-",
    ("g", "l"): "GL-",
    ("iso",): "ISO ",
    ("nlgi",): "NLGI ",
    ("vg",): "ISO VG ",
    ("merv",): "MERV ",
    ("grade",): "Grade ",
    ("class",): "Class ",
}
# Grades go by whole numbers within each series; others after these words are addresses, sizes or counts.
SERIES = {
    "DOT": range(2, 6),
    "SAE": range(0, 251),
    "GL-": range(1, 7),
    "ISO ": range(2, 1501),
    "NLGI ": range(0, 7),
    "ISO VG ": range(2, 1501),
    "MERV ": range(1, 21),
    "Grade ": (1, 2, 5, 7, 8),  # of bolts, SAE J429
    "Class ": tuple(map(Decimal, ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"))),  # ISO 898-1
}


@dataclass(frozen=True, slots=True)
class GradeSaid:
    """A grade. start, end: tokens, end exclusive. grade: as printed, "DOT 4", "0W-20", "GL-5", "SAE 30"."""

    start: int
    end: int
    grade: str


def find_grades(texts: Sequence[str], said: Sequence[Number], printed: Iterable[str] = ()) -> tuple[GradeSaid, ...]:
    """All grades of a recording, in order. said: the numbers among its tokens. printed: the table's grades, of which those of letters alone are sought too."""
    letters = {grade.casefold(): grade for grade in printed if grade.isalpha() and len(grade) > 1 and grade.isupper()}
    numbers = {number.start: number for number in said}
    ends = {number.end: number for number in numbers.values()}
    found: list[GradeSaid] = []
    for i in range(len(texts)):
        grade = (
            _viscosity(texts, i, numbers, ends)
            or _prefixed(texts, i, numbers)
            or _grease(texts, i, numbers)
            or _lettered(texts, i, letters)
        )
        if grade is not None and (not found or grade.start >= found[-1].end):
            found.append(grade)
    return tuple(found)


def _whole(number: Number | None) -> int | None:
    return (
        int(number.value)
        if number is not None and number.value == number.value.to_integral_value() and number.value < Decimal(2000)
        else None
    )


def _viscosity(texts: Sequence[str], i: int, numbers: dict[int, Number], ends: dict[int, Number]) -> GradeSaid | None:
    written = _VISCOSITY.match(texts[i])
    if written:
        return GradeSaid(i, i + 1, f"{int(written[1])}W-{int(written[2])}")
    if texts[i] in ("w", "weight", "double u", "dub") and i in ends and i + 1 in numbers:
        cold, hot = _whole(ends[i]), _whole(numbers[i + 1])
        if cold is not None and hot is not None and cold < hot:
            return GradeSaid(ends[i].start, numbers[i + 1].end, f"{cold}W-{hot}")
    if texts[i] in ("weight", "wt") and i in ends and _whole(ends[i]) is not None:
        return GradeSaid(ends[i].start, i + 1, f"SAE {_whole(ends[i])}")
    return None


def _prefixed(texts: Sequence[str], i: int, numbers: dict[int, Number]) -> GradeSaid | None:
    for words, prefix in PREFIXES.items():
        after = i + len(words)
        number = numbers.get(after) if tuple(texts[i:after]) == words else None
        figure = (_whole(number) or number.value) if number is not None else None
        if number is not None and figure in SERIES[prefix]:
            end, suffix = numbers[after].end, ""
            if prefix == "DOT" and tuple(texts[end : end + 2]) in (("point", "one"), ("5", "1")):
                end, suffix = end + 2, ".1"
            return GradeSaid(
                i, end, f"{prefix}{figure}{suffix}" if prefix.endswith(("-", " ")) else f"{prefix} {figure}{suffix}"
            )
    return None


def _grease(texts: Sequence[str], i: int, numbers: dict[int, Number]) -> GradeSaid | None:
    """ "a tub of number two bearing grease"."""
    figure = _whole(numbers.get(i + 1)) if texts[i] in ("number", "#") else None
    if figure is None or figure not in SERIES["NLGI "] or "grease" not in texts[i + 2 : i + 5]:
        return None
    return GradeSaid(i, numbers[i + 1].end, f"NLGI {figure}")


def _lettered(texts: Sequence[str], i: int, letters: dict[str, str]) -> GradeSaid | None:
    """A grade of letters alone, as a word or letter by letter: "utto", "u t t o"."""
    if texts[i] in letters:
        return GradeSaid(i, i + 1, letters[texts[i]])
    for spelled, grade in letters.items():
        if len(texts[i]) == 1 and tuple(texts[i : i + len(spelled)]) == tuple(spelled):
            return GradeSaid(i, i + len(spelled), grade)
    return None


def grade_parts(grade: str) -> frozenset[tuple[str, str]]:
    """The grades in a text as (series, grade): "GL-5 75W-90" is of the series GL and of the viscosities (W)."""
    text = grade.upper()
    found = {("W", f"{int(cold)}W-{int(hot)}") for cold, hot in re.findall(r"(\d{1,3})W-?(\d{1,3})", text)}
    found |= {
        (series, number)
        for series, number in re.findall(
            r"(DOT|GL|SAE|ISO VG|ISO|NLGI|MERV|GRADE|CLASS)[- ]?(\d+(?:\.\d)?)(?!\d*W)", text
        )
    }
    return frozenset(found)
