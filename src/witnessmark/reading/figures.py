"""Numbers with their units: ranges joined, units shared, what looks like a number and is none left out."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property

from witnessmark.language.cues import Cues, find_cues
from witnessmark.language.numbers import Number, read_numbers
from witnessmark.language.speech import Speech, breaks_after
from witnessmark.language.tokens import SENTENCE_END
from witnessmark.language.unit_words import UnitWord, match_units

FRAGMENT = 3  # words of a sentence that is hardly one
POINTED = frozenset(
    {
        "big",
        "little",
        "other",
        "top",
        "bottom",
        "this",
        "that",
        "first",
        "last",
        "each",
        "second",
        "small",
        "long",
        "short",
        "new",
        "old",
        "upper",
        "lower",
    }
)
# Words that join the ends of a range.
SPANS = frozenset(
    tuple(words.split())
    for words in ("to", "-", "through", "till", "until", "up to", "to about", "up till", "all the way to", "all the way up to", "up as far as",
                  "and tops out at", "and stops at", "and goes to", "and goes up to")
)  # fmt: skip
METERED = 45  # tokens behind a word of measuring in which figures are read off a meter
MONEY = {"$": "$", "£": "£", "€": "€"}


@dataclass(frozen=True, slots=True)
class Figure:
    """An amount as spoken, before it is known what it measures.

    One figure a number: the ends of a range are two, each the other's `partner`.
    start, end: tokens, the unit included. number_end: token after the number itself. labels: the units it may be in, () where none was said.
    short: those of them that are a longer unit said short ("newtons", "pounds"). written: the captions show digits.
    """

    start: int
    end: int
    number_end: int
    low: Decimal
    labels: tuple[str, ...]
    short: tuple[str, ...]
    written: bool
    form: str
    partner: "Figure | None" = None

    @property
    def value(self) -> Decimal:
        """The figure itself."""
        return self.low

    @property
    def is_range(self) -> bool:
        """Whether it is one end of a range."""
        return self.partner is not None


@dataclass(frozen=True)
class Talk:
    """A recording with what the rules of reading ask of it again and again."""

    speech: Speech

    @cached_property
    def cues(self) -> Cues:
        """How things are meant."""
        return find_cues(self.texts)

    @cached_property
    def kind_cues(self) -> Cues:
        """What lengths and times measure."""
        return find_cues(self.texts, "kinds")

    @cached_property
    def size_cues(self) -> Cues:
        """What makes a figure a tool size, a drive, a count."""
        return find_cues(self.texts, "sizes")

    @cached_property
    def bare_cues(self) -> Cues:
        """What tells of figures without a unit."""
        return find_cues(self.texts, "bare")

    @cached_property
    def measuring_cues(self) -> Cues:
        """What tells that something is measured, and what."""
        return find_cues(self.texts, "measuring")

    @cached_property
    def numbers(self) -> tuple[Number, ...]:
        """All numbers."""
        return read_numbers(self.texts)

    @cached_property
    def units(self) -> tuple[UnitWord, ...]:
        """All places where a unit may be said."""
        return match_units(self.texts)

    @property
    def texts(self) -> tuple[str, ...]:
        """Every token's text."""
        return self.speech.texts

    def text(self, index: int) -> str:
        """The token's text, "" outside the recording."""
        return self.texts[index] if 0 <= index < len(self.texts) else ""

    def lemma(self, index: int) -> str:
        """The token's lemma, "" outside the recording."""
        return self.speech.lemmas[index] if 0 <= index < len(self.texts) else ""

    def clause(self, index: int, before: int, after: int) -> tuple[int, int]:
        """Tokens around one token, at most so many before and after, and not across a full stop or a long silence,
        except behind a sentence of a few words: "Bracket at the tail. One bolt. 13 mil." is one saying.
        """
        low = since = index
        while low > 0 and index - low < before:
            if breaks_after(self.speech, low - 1):
                if since - low > FRAGMENT:
                    break
                since = low - 1
            low -= 1
        high = index
        while high < len(self.texts) - 1 and high - index < after and not breaks_after(self.speech, high):
            high += 1
        return low, high + 1

    def is_sentence(self, start: int, end: int) -> bool:
        """Whether tokens start..end (exclusive) are all of a sentence: "Bolts in by hand. Hundred and ten."."""
        begins = start > 0 and breaks_after(self.speech, start - 1)
        return begins and (breaks_after(self.speech, end - 1) or self.text(end) in SENTENCE_END)


def stands_between(places: Sequence[int], low: int, high: int) -> bool:
    """Whether one of the places, which are in order, is at least `low` and under `high`."""
    return bisect_left(places, low) < bisect_left(places, high)


def plain_figure(start: int, end: int, low: Decimal = Decimal(0)) -> Figure:
    """A figure for what is no number with a unit: a grade, a size said as a code."""
    return Figure(start, end, end, low, (), (), True, "cardinal")


def find_figures(talk: Talk) -> tuple[Figure, ...]:
    """All figures of a recording in order, never overlapping."""
    units = {unit.start: unit for unit in talk.units if not unit.doubtful or _stops(talk, unit)}
    numbers = talk.numbers
    whole = _unit_first(talk, units, numbers)
    taken = {i for figure in whole for i in range(figure.start, figure.end)}
    numbers = tuple(part for number in numbers for part in _apart(talk, number, units))
    singles = [
        _single(talk, number, units) for number in numbers if _counts(talk, number, units) and number.start not in taken
    ]
    figures = _tenths(talk, sorted([*whole, *singles], key=lambda figure: figure.start))
    return tuple(_share_units(talk, _link_ranges(talk, figures)))


def _tenths(talk: Talk, figures: Sequence[Figure]) -> list[Figure]:
    """ "Twelve four" read off a meter is 12.4: a figure of two digits, and a single one at once."""
    joined: list[Figure] = []
    for figure in figures:
        last = joined[-1] if joined else None
        if (
            last is not None
            and _is_tenth(talk, last, figure)
            and talk.measuring_cues.has("electric", last.start - METERED, last.end)
        ):
            joined[-1] = replace(figure, start=last.start, low=last.low + figure.low / 10, form="decimal")
        else:
            joined.append(figure)
    return joined


def _is_tenth(talk: Talk, first: Figure, second: Figure) -> bool:
    """Whether the second of two figures is the tenths of the first: both in words, nothing between, none of them counts."""
    plain = not (first.labels or first.written or second.written) and {first.form, second.form} == {"cardinal"}
    single = second.low < 10 and second.number_end - second.start == 1
    counts = talk.text(second.end) == "of" or talk.text(second.end).endswith("s")
    return plain and first.end == second.start and single and 10 <= first.low < 100 and not counts


def _apart(talk: Talk, number: Number, units: dict[int, UnitWord]) -> tuple[Number, ...]:
    """ "two twelves" and "two ten mil bolts" are two of a size, not 212 and 210."""
    if number.form == "mixed" and not number.written and number.value > 20 and number.end not in units:
        joint = next(
            (
                i
                for i in range(number.start, number.end)
                if talk.text(i) == "and" and talk.text(i + 1) in ("a", "quarter", "half")
            ),
            None,
        )
        printed = talk.texts[number.end : number.end + 2] == ("on", "the")  # "ninety eight and a half on the box"
        if joint is not None and not printed:  # "one twenty and a quarter": a torque, then a quarter turn
            return (replace(number, end=joint, value=Decimal(int(number.value)), form="cardinal"),)
    if number.apart and talk.text(number.start) == "one" and talk.text(number.start - 1) in POINTED:
        return number.apart[1:]  # "for the big one twenty seven": 27 of the big one
    if not number.apart or talk.text(number.start) == "one":
        return (number,)
    last = talk.text(number.end - 1)
    unit = units.get(number.end)
    sizes = (
        unit is not None
        and "mm" in unit.labels
        and any(word.endswith("s") for word in talk.texts[unit.end : unit.end + 2])
    )
    return number.apart if (last.isalpha() and last.endswith("s") and last != "six") or sizes else (number,)


def _stops(talk: Talk, unit: UnitWord) -> bool:
    """ "in" or "a" is a unit only where nothing follows that it could lead up to."""
    return talk.text(unit.end) in ("", ".", ",", ")", ";", ":") and talk.text(unit.start - 1)[-1:].isdigit()


def _counts(talk: Talk, number: Number, units: dict[int, UnitWord]) -> bool:
    """Ordinals are never amounts, and "one" is mostly a pronoun: it counts only before a unit or at the head of a range."""
    if number.form == "ordinal":
        return False
    if number.end - number.start == 1 and talk.text(number.start) == "one":
        unit = units.get(number.end)
        return (unit is not None and (not unit.needs_number or "mm" in unit.labels)) or (
            talk.text(number.end) in ("to", "-") and bool(talk.text(number.end + 1))
        )
    return True


def _is_drive(talk: Talk, number: Number, unit: UnitWord) -> bool:
    """ "Three eighths inch pound wrench": the drive of a wrench and what it measures."""
    measures = "lbf·in" in unit.labels and talk.text(unit.end) in ("one", "wrench", "torque")
    return number.form == "fraction" and measures


def _turns_it(talk: Talk, number: Number, unit: UnitWord) -> bool:
    """ "That's thirty five | turn it by hand": a verb; of more than one it would be "turns"."""
    said = talk.texts[unit.start : unit.end] == ("turn",) and talk.text(unit.end) in (
        "it",
        "them",
        "the",
        "that",
        "her",
    )
    return said and number.value > 1


def _single(talk: Talk, number: Number, units: dict[int, UnitWord]) -> Figure:
    at = number.end
    unit = units.get(at)
    if unit is None and number.form in ("fraction", "mixed", "decimal"):
        while talk.text(at) in ("of", "a", "an") and at - number.end < 2:
            at += 1
        unit = units.get(at)
    if unit is None and talk.text(number.end) in ("uh", "um", "er", "erm"):
        at = number.end + 1
        unit = units.get(at)
    if unit is not None and (_is_drive(talk, number, unit) or _turns_it(talk, number, unit)):
        unit = None
    before = talk.text(number.start - 1)
    labels: tuple[str, ...] = unit.labels if unit else ()
    end = unit.end if unit else number.end
    if before in MONEY:
        labels, unit, end = (MONEY[before],), None, number.end
    return Figure(
        number.start,
        end,
        number.end,
        number.value,
        labels,
        unit.short_labels if unit else (),
        number.written,
        number.form,
    )


def _link_ranges(talk: Talk, singles: Sequence[Figure]) -> list[Figure]:
    """ "thirty to thirty five", "between 30 and 36", "30-36": two ends of one range, if both have one unit and rise."""
    linked = list(singles)
    for i in range(len(linked) - 1):
        first, second = linked[i], linked[i + 1]
        if not first.is_range and _is_range(talk, first, second):
            first = replace(first, labels=second.labels, short=second.short)
            linked[i], linked[i + 1] = replace(first, partner=second), replace(second, partner=first)
    return linked


def _is_range(talk: Talk, first: Figure, second: Figure) -> bool:
    if first.low >= second.low or not (first.labels == second.labels or not first.labels):
        return False
    between = talk.texts[first.end : second.start]
    if between in SPANS:
        return True
    return between == ("and",) and "between" in talk.texts[max(0, first.start - 2) : first.start]


def _share_units(talk: Talk, figures: Sequence[Figure]) -> list[Figure]:
    """ "two or three newton metres", "12, 14 and 17 mm": bare figures joined to one with a unit are in that unit."""
    shared = list(figures)
    for i in range(len(shared) - 2, -1, -1):
        figure, following = shared[i], shared[i + 1]
        if figure.labels or not following.labels or following.is_range:
            continue
        between = talk.texts[figure.end : following.start]
        size = "mm" in following.labels or "in" in following.labels
        in_list = between == ("and",) and i > 0 and talk.texts[shared[i - 1].end : figure.start] == (",",)
        if (
            in_list
            or between in (("or",), ("-",), ("or", "maybe"), ("maybe",))
            or (size and between in ((",",), (",", "and")))
        ):
            shared[i] = replace(figure, labels=following.labels, short=following.short)
    return shared


def _unit_first(talk: Talk, units: dict[int, UnitWord], numbers: Sequence[Number]) -> list[Figure]:
    """ "an inch and a quarter", "every month": the unit itself says one."""
    fractions = {number.start: number for number in numbers if number.form == "fraction"}
    found = []
    for unit in units.values():
        before = talk.text(unit.start - 1)
        at = unit.end + 1 if talk.text(unit.end) == "and" else -1
        part = fractions.get(at) or (fractions.get(at + 1) if talk.text(at) == "a" else None)
        if part is not None and (
            before in ("a", "an")
            or (
                unit.labels[0] == "in"
                and not before.isdigit()
                and not any(number.end == unit.start for number in numbers)
            )
        ):
            begin = unit.start - (before in ("a", "an"))
            found.append(Figure(begin, part.end, part.end, 1 + part.value, unit.labels, (), False, "mixed"))
        elif before == "every" and unit.start not in fractions and unit.end == unit.start + 1 and not unit.doubtful:
            found.append(Figure(unit.start, unit.end, unit.end, Decimal(1), unit.labels, (), False, "cardinal"))
    return found
