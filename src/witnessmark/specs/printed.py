"""Values as manuals print them: `30-36 N·m`, `30 N·m, then 90°`, `min 22.0 mm`, `35 N·m (26 lbf·ft)`, `DOT 4`."""

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from witnessmark.quantity import Amount, Bound
from witnessmark.specs.properties import PropertyRule, remark_words
from witnessmark.specs.written import Unreadable, match_number, match_unit, plain_form
from witnessmark.units import convert, dimension

_FIGURE = r"(?=-? ?\.?[0-9])"
_LABEL = re.compile(r"(?:stage|step|pass) ?[0-9]{1,2} ?[:.)] ?", re.I)
_ABOUT = re.compile(r"(?:about|approx(?:imately|\.)?|circa|ca\.|c\.|~|≈|every|up to and including)(?![a-z]) ?", re.I)
_BOUND_BEFORE: dict[Bound, re.Pattern[str]] = {
    "min": re.compile(r"(?:min(?:imum|\.)?(?![a-z])|at least|(?:not|no) less than|[≥>] ?=?|over|above) ?:? ?", re.I),
    "max": re.compile(
        r"(?:max(?:imum|\.)?(?![a-z])|at most|(?:not|no) more than|[≤<] ?=?|under|below|up to) ?:? ?", re.I
    ),
}
# A word between two figures belongs to the second: in "20 N·m, min 30 N·m" the first is no minimum.
_NO_FIGURE_NEXT = r"(?![. ]{0,3}[0-9])"
_BOUND_AFTER: dict[Bound, re.Pattern[str]] = {
    "min": re.compile(rf",? ?(?:min(?:imum|\.)?|or more|or thicker|or over|and above)(?![a-z]){_NO_FIGURE_NEXT}", re.I),
    "max": re.compile(rf",? ?(?:max(?:imum|\.)?|or less|or thinner|or under)(?![a-z]){_NO_FIGURE_NEXT}", re.I),
}
_TO = re.compile(rf" ?(?:[-–—~]|\.{{2,3}}|to(?![a-z])|through(?![a-z])) ?{_FIGURE}", re.I)
_PLUS_MINUS = re.compile(r" ?(?:±|\+ ?/ ?-) ?")
_THEN = re.compile(
    r" ?(?:[,;]|then\b|plus\b|and\b|followed by\b|\+) ?"
    r"(?:(?:and|then|plus|a|an|further|additional|another|turn|to)\b ?){0,4}",
    re.I,
)
_OR = re.compile(r",? ?(?:or\b|/) ?(?:every )?", re.I)
_WHICHEVER = re.compile(r",? ?\(?whichever[^0-9]{0,40}$", re.I)
_BRACKET = re.compile(r" ?\(([^()]{0,120})\)")
_SEPARATOR = re.compile(r" ?(?:[,;/=]|or\b) ?", re.I)
_SAME_AGAIN = re.compile(r" ?(?:[/=]|or\b) ?", re.I)


@dataclass(frozen=True, slots=True)
class Printed:
    """A value cell as read.

    amounts: stages in order. alternatives: after `or`, whichever comes first. words: a grade, or a value in words.
    """

    amounts: tuple[Amount, ...] = ()
    alternatives: tuple[Amount, ...] = ()
    words: str | None = None


@dataclass(slots=True)
class _Reader:
    """A place in a cell's text, moved on by what is taken."""

    text: str
    rule: PropertyRule
    comma_decimals: bool
    at: int = 0

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        if match := pattern.match(self.text, self.at):
            self.at = match.end()
        return match

    def skip_space(self) -> None:
        while self.text.startswith(" ", self.at):
            self.at += 1

    def number(self) -> Decimal:
        self.skip_space()
        start = self.at
        negative = self.text.startswith("-", start)
        self.at += negative
        self.skip_space()
        found = match_number(self.text, self.at, self.comma_decimals)
        if found is None:
            rest = self.text[start : start + 40]
            raise Unreadable(
                f"{rest!r} is not a figure" if rest else "a figure is missing",
                "write a figure and its unit, as in 35 N·m",
            )
        figure, self.at = found
        return -figure if negative else figure

    def unit(self) -> str | None:
        start = self.at + self.text.startswith(" ", self.at) + self.text.startswith("-", self.at)
        found = match_unit(self.text, start)
        if found is None:
            return None
        self.at = found[1]
        return found[0]

    def rest(self) -> str:
        return self.text[self.at :].strip(" .")


def _bound(reader: _Reader, patterns: dict[Bound, re.Pattern[str]]) -> Bound | None:
    return next((bound for bound, pattern in patterns.items() if reader.take(pattern)), None)


def _spread(reader: _Reader, middle: Decimal) -> tuple[Decimal, Decimal]:
    size = reader.number()
    if reader.take(re.compile(" ?%")):
        size = middle * size / 100
    return middle - abs(size), middle + abs(size)


def _figures(reader: _Reader) -> tuple[Decimal, Decimal, str]:
    """`35 N·m`, `30-36 N·m`, `30 N·m to 36 N·m`, `35 ± 3 N·m`: both ends and the unit."""
    low = high = reader.number()
    unit, last_unit = reader.unit(), None
    if reader.take(_PLUS_MINUS):
        low, high = _spread(reader, low)
        last_unit = reader.unit()
    elif reader.take(_TO):
        high = reader.number()
        last_unit = reader.unit()
    if unit and last_unit and unit != last_unit:
        raise Unreadable(f"one range has two units, {unit} and {last_unit}", "give both ends in one unit")
    if (unit or last_unit) is None:
        rest = reader.rest()
        if rest:
            raise Unreadable(
                f"{rest[:40]!r} is not a known unit", "write a unit such as N·m, lbf·ft, lbf·in, mm, L, kPa, V or Ω"
            )
        raise Unreadable("the figure has no unit", "write the unit after it, as in 35 N·m")
    if low > high:
        raise Unreadable(f"the range runs backwards, from {low} to {high}", "write the smaller end first")
    return low, high, unit or last_unit or ""


def _one_amount(reader: _Reader) -> Amount:
    before = _bound(reader, _BOUND_BEFORE)
    reader.take(_ABOUT)
    low, high, unit = _figures(reader)
    after = _bound(reader, _BOUND_AFTER)
    bound = before or after or reader.rule.bound
    if (bound and low != high) or len({before, after, reader.rule.bound} - {None}) > 1:
        raise Unreadable(
            "a minimum or maximum is one figure, and this is a range or contradicts it",
            "write one figure, as in min 22.0 mm",
        )
    _check_fit(reader.rule, low, unit)
    return Amount(low, high, unit, bound or ("range" if low != high else "exact"))


def _check_fit(rule: PropertyRule, low: Decimal, unit: str) -> None:
    if rule.dimensions and dimension(unit) not in rule.dimensions:
        expected = " or ".join(rule.dimensions)
        raise Unreadable(
            f"{unit} is a unit of {dimension(unit)}, and {rule.name} is a {expected}",
            f"write a unit of {expected}, or mend the property",
        )
    if low < 0 and not rule.negative:
        raise Unreadable(f"{rule.name} is under zero", "write the figure without a minus sign")


def _half_last_place(figure: Decimal) -> Decimal:
    return Decimal(5).scaleb(min(int(figure.as_tuple().exponent), 0) - 1)


def _agree(first: Amount, second: Amount) -> bool:
    """Whether two amounts are one, printed in two units: what rounds to each, widened by 1 %, has a part in common."""
    if dimension(first.unit) != dimension(second.unit):
        return False
    for one, other in ((first.low, second.low), (first.high, second.high)):
        room = convert(one + _half_last_place(one), first.unit, second.unit) - convert(one, first.unit, second.unit)
        gap = abs(convert(one, first.unit, second.unit) - other)
        if gap > abs(room) + _half_last_place(other) + abs(other) / 100:
            return False
    return True


def same_amounts(first: tuple[Amount, ...], second: tuple[Amount, ...]) -> bool:
    """Whether two printed values say the same, in one unit or, as far as rounding goes, in two."""
    return len(first) == len(second) and all(
        one.bound == other.bound and (one == other if one.unit == other.unit else _agree(one, other))
        for one, other in zip(first, second, strict=True)
    )


def _check_restated(amount: Amount, reader: _Reader) -> None:
    start = reader.at
    other = _one_amount(reader)
    if not _agree(amount, other):
        again = reader.text[start : reader.at]
        raise Unreadable(
            f"{again!r} is not the same amount as the one before it",
            "look both up in the manual and mend the wrong one",
        )


def _brackets(reader: _Reader, amount: Amount | None) -> None:
    """Pass over remarks in brackets; amounts in them must be the same as the one before."""
    while match := reader.take(_BRACKET):
        if amount is None or not re.search("[0-9]", match[1]):
            continue
        inside = _Reader(match[1].strip(), reader.rule, reader.comma_decimals)
        _check_restated(amount, inside)
        while inside.take(_SEPARATOR):
            _check_restated(amount, inside)
        if inside.rest():
            raise Unreadable(
                f"{inside.rest()[:40]!r} in brackets is not understood",
                "keep only the same amount in another unit, or words, in brackets",
            )


@cache
def _remarks(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(rf",? ?(?:{'|'.join(map(re.escape, words))})(?![a-z]){_NO_FIGURE_NEXT}", re.I)


def _stage(reader: _Reader) -> Amount:
    reader.take(_LABEL)
    amount = _one_amount(reader)
    while True:
        start = reader.at
        _brackets(reader, amount)
        # Where alternatives are allowed, a stroke parts two intervals: 10 000 km / 12 months.
        if not reader.rule.alternatives and reader.take(_SAME_AGAIN):
            _check_restated(amount, reader)
        reader.take(_remarks(remark_words()))
        if reader.at == start:
            return amount


def _words(reader: _Reader) -> str | None:
    """`hand tight` and the like, at the start of a cell."""
    if not reader.rule.words:
        return None
    match = reader.take(
        re.compile(rf"(?:{'|'.join(sorted(reader.rule.words, key=lambda word: -len(word)))})(?![a-z])", re.I)
    )
    if match:
        _brackets(reader, None)
        reader.take(re.compile(" ?only", re.I))
    return match[0] if match else None


def _words_after(reader: _Reader) -> str | None:
    """`after contact`, as in `3/4 turn after contact`."""
    start = reader.at
    if reader.take(re.compile(" ?(?:after|past|beyond|from) ?", re.I)) and (words := _words(reader)):
        return words
    reader.at = start
    return None


def read_printed(text: str, rule: PropertyRule, comma_decimals: bool = False) -> Printed:
    """Read one value cell by the rule of its property.

    text: as printed, not empty. comma_decimals: the table's decimal mark is the comma. Raises Unreadable with what is
    wrong and what to write where the cell cannot be read whole, a unit does not fit the property, or an amount in
    brackets is not the amount before it. Nothing in a cell is passed over but remarks.
    """
    if rule.text:
        return Printed(words=" ".join(text.split()))
    reader = _Reader(plain_form(text), rule, comma_decimals)
    words = _words(reader)
    stages: list[Amount] = []
    alternatives: list[Amount] = []
    if words is None:
        stages.append(_stage(reader))
    while rule.stages and reader.rest() and reader.take(_THEN):
        stages.append(_stage(reader))
    if rule.stages and words is None:
        words = _words_after(reader)
    while rule.alternatives and reader.rest() and not _WHICHEVER.match(reader.text, reader.at) and reader.take(_OR):
        alternatives.append(_stage(reader))
    reader.take(_WHICHEVER)
    if rest := reader.rest():
        raise Unreadable(f"{rest[:40]!r} is not understood", _remedy(rule))
    return Printed(tuple(stages), tuple(alternatives), words)


def _remedy(rule: PropertyRule) -> str:
    if rule.stages:
        return "write stages as 30 N·m, then 90°, and put remarks in brackets"
    return "give each value a row of its own, and put remarks in brackets"
