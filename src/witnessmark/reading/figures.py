"""Numbers with their units: ranges joined, units shared, what looks like a number and is none left out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property

from witnessmark.language.cues import Cues, find_cues
from witnessmark.language.numbers import Number, read_numbers
from witnessmark.language.speech import Speech, breaks_after
from witnessmark.language.unit_words import UnitWord, match_units

FILLERS = frozenset({"uh", "um", "er", "erm", "like", "about", "well", "of"})
MONEY = {"$": "$", "£": "£", "€": "€"}


@dataclass(frozen=True, slots=True)
class Figure:
    """An amount as spoken, before it is known what it measures.

    start, end: tokens, the unit included. number_end: token after the number itself. labels: the units it may be in, () where none was said.
    short: the unit was said short ("newtons", "pounds"). written: the captions show digits.
    """

    start: int
    end: int
    number_end: int
    low: Decimal
    high: Decimal
    labels: tuple[str, ...]
    short: bool
    written: bool
    form: str

    @property
    def is_range(self) -> bool:
        """Whether two ends were said."""
        return self.low != self.high


@dataclass(frozen=True)
class Talk:
    """A recording with what the rules of reading ask of it again and again."""

    speech: Speech

    @cached_property
    def cues(self) -> Cues:
        """How things are meant."""
        return find_cues(self.speech.texts)

    @cached_property
    def kind_cues(self) -> Cues:
        """What lengths and times measure."""
        return find_cues(self.speech.texts, "kinds")

    @property
    def texts(self) -> tuple[str, ...]:
        """Every token's text."""
        return self.speech.texts

    def text(self, index: int) -> str:
        """The token's text, "" outside the recording."""
        return self.texts[index] if 0 <= index < len(self.texts) else ""

    def clause(self, index: int, before: int, after: int) -> tuple[int, int]:
        """Tokens around one token, at most so many before and after, and not across a full stop or a long silence."""
        low = index
        while low > 0 and index - low < before and not breaks_after(self.speech, low - 1):
            low -= 1
        high = index
        while high < len(self.texts) - 1 and high - index < after and not breaks_after(self.speech, high):
            high += 1
        return low, high + 1


def find_figures(talk: Talk) -> tuple[Figure, ...]:
    """All figures of a recording in order, never overlapping."""
    units = {unit.start: unit for unit in match_units(talk.texts)}
    singles = [_single(talk, number, units) for number in read_numbers(talk.texts) if _counts(talk, number, units)]
    return tuple(_share_units(talk, _join_ranges(talk, singles)))


def _counts(talk: Talk, number: Number, units: dict[int, UnitWord]) -> bool:
    """Ordinals are never amounts, and "one" is mostly a pronoun: it counts only before a unit or at the head of a range."""
    if number.form == "ordinal":
        return False
    if number.end - number.start == 1 and talk.text(number.start) == "one":
        unit = units.get(number.end)
        return (unit is not None and (not unit.needs_number or "mm" in unit.labels)) or talk.text(number.end) in ("to", "-") and bool(
            talk.text(number.end + 1)
        )
    return True


def _single(talk: Talk, number: Number, units: dict[int, UnitWord]) -> Figure:
    at = number.end
    unit = units.get(at)
    if unit is None and number.form in ("fraction", "mixed"):
        while talk.text(at) in ("of", "a", "an") and at - number.end < 2:
            at += 1
        unit = units.get(at)
    if unit is None and talk.text(number.end) in ("uh", "um", "er", "erm"):
        at = number.end + 1
        unit = units.get(at)
    before = talk.text(number.start - 1)
    labels: tuple[str, ...] = unit.labels if unit else ()
    end = unit.end if unit else number.end
    if before in MONEY:
        labels, unit, end = (MONEY[before],), None, number.end
    return Figure(number.start, end, number.end, number.value, number.value, labels, bool(unit and unit.short), number.written, number.form)


def _join_ranges(talk: Talk, singles: Sequence[Figure]) -> list[Figure]:
    """"thirty to thirty five", "between 30 and 36", "30-36": one figure, if both ends have one unit and rise."""
    joined: list[Figure] = []
    for figure in singles:
        last = joined[-1] if joined else None
        if last is not None and _is_range(talk, last, figure):
            joined[-1] = replace(figure, start=last.start, low=last.low, written=last.written and figure.written)
        else:
            joined.append(figure)
    return joined


def _is_range(talk: Talk, first: Figure, second: Figure) -> bool:
    if first.is_range or first.low >= second.low or not (first.labels == second.labels or not first.labels):
        return False
    between = talk.texts[first.end : second.start]
    if between in (("to",), ("-",), ("through",), ("till",), ("up", "to")):
        return not (between == ("to",) and talk.text(first.start - 1) in ("from",) and not second.labels)
    return between == ("and",) and "between" in talk.texts[max(0, first.start - 2) : first.start]


def _share_units(talk: Talk, figures: Sequence[Figure]) -> list[Figure]:
    """"two or three newton metres": a bare figure joined to one with a unit is in that unit."""
    shared = list(figures)
    for i in range(len(shared) - 2, -1, -1):
        figure, following = shared[i], shared[i + 1]
        if not figure.labels and following.labels and talk.texts[figure.end : following.start] in (("or",), ("-",), ("or", "maybe"), ("maybe",)):
            shared[i] = replace(figure, labels=following.labels, short=following.short)
    return shared
