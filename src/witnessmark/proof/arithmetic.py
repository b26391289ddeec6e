"""Spoken arithmetic that does not add up.

*said*: 38 and 64 so a hundred and twelve bucks · *found*: 38 and 64 is 102.
Source: arithmetic; how far people round when they speak is common practice.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from witnessmark.language.cues import Cues
from witnessmark.proof.check_words import find_words
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix
from witnessmark.proof.wording import card, number
from witnessmark.quantity import Amount
from witnessmark.house_style import plain
from witnessmark.reading.figures import Figure, Talk, find_figures
from witnessmark.units import convert, dimension

NAME = "arithmetic"
SUMMED = frozenset({"money", "mass", "volume", "length", "time"})
BETWEEN, RESULT = 7, 6  # most tokens between the operands, and from the last one to the result
ROUNDED = Decimal("0.1")  # share by which a result called rough may be off
SIGNS = {"plus": "+", "minus": "−", "times": "×"}


@dataclass(frozen=True, slots=True)
class Sum:
    """Two figures joined by a word, and the result said. sign: plus, minus or times."""

    first: Figure
    second: Figure
    result: Figure
    sign: str

    @property
    def right(self) -> Decimal:
        """What it comes to, in the first figure's unit."""
        one, two = self.first.value, self.second.value
        return {"plus": one + two, "minus": one - two, "times": one * two}[self.sign]


def check(evidence: Evidence) -> Iterator[Finding]:
    """Sums, differences and products of money, weights, volumes, sizes and times whose every part is said."""
    talk = Talk(evidence.reading.speech)
    words = find_words(talk.texts, "arithmetic")
    figures = find_figures(talk)
    for i in range(len(figures) - 2):
        said = _sum(talk, words, figures[i : i + 3])
        if said is not None and not _adds_up(talk, words, said):
            yield _finding(evidence, said)


def _sum(talk: Talk, words: Cues, figures: Sequence[Figure]) -> Sum | None:
    first, second, result = figures
    if any(figure.is_range for figure in figures) or second.start - first.end > BETWEEN or result.start - second.end > RESULT:
        return None
    if words.has("either", first.start - 2, first.start) or words.has("either", first.end, second.start):
        return None
    sign = _sign(words, first, second)
    if sign is None or not _leads_on(talk, words, sign, second, result) or not _of_one_kind(talk, sign, figures):
        return None
    return Sum(first, second, result, sign)


def _sign(words: Cues, first: Figure, second: Figure) -> str | None:
    """The word that joins the operands; where more than one could, none does."""
    signs = [sign for sign in SIGNS if words.has(sign, first.end, second.start)]
    return signs[0] if len(signs) == 1 else None


def _leads_on(talk: Talk, words: Cues, sign: str, second: Figure, result: Figure) -> bool:
    """Whether words lead from the operands to the result: "makes", or "that's" and "so" right before it."""
    low, high = second.end, result.start
    if words.has("makes", low, high) or sign == "minus" and words.has("leaves", low, high):
        return True
    leads = [span for span in words.between("gives", low, high) if high - span[1] <= 2 and span[0] - low <= 2]
    return bool(leads) or words.has("total_after", result.end, result.end + 2) and high - low <= 2


def _of_one_kind(talk: Talk, sign: str, figures: Sequence[Figure]) -> bool:
    """Whether the figures can be reckoned with: units that are said are the same, and one of them is of what people add up."""
    first, second, result = figures
    told = [_unit(figure) for figure in figures]
    known = {unit for unit in told if unit}
    if len(known) != 1 or dimension(next(iter(known))) not in SUMMED or any(len(figure.labels) > 1 for figure in figures):
        return False
    if sign == "times":
        return (told[0] is None) != (told[1] is None) and told[2] is not None
    # A figure that counts a thing ("two of them") is no part of a sum of money.
    return told[2] is not None or told[0] is not None and told[1] is not None and _stands_alone(talk, result)


def _unit(figure: Figure) -> str | None:
    return figure.labels[0] if figure.labels else None


def _stands_alone(talk: Talk, figure: Figure) -> bool:
    return talk.text(figure.end) in ("", ".", ",", "altogether", "total", "all", "in", "so", "and", "left", "!", "?")


def _adds_up(talk: Talk, words: Cues, said: Sum) -> bool:
    """Whether the result is right as people round: to its own last digit, by a tenth where it is called rough."""
    right, result = said.right, said.result.value
    if right <= 0:
        return True
    slack = Decimal(1).scaleb(_place(result)) / 2
    low, high = said.second.end, said.result.end + 3
    if words.has("rounded", low - 1, high) or words.has("rounded", said.first.start - 3, said.first.start):
        slack = max(slack, right * ROUNDED)
    return abs(right - result) <= slack


def _place(x: Decimal) -> int:
    """Exponent of the last digit that counts: a figure that ends in noughts was rounded to them."""
    exponent = x.normalize().as_tuple().exponent
    return exponent if isinstance(exponent, int) else 0


def _finding(evidence: Evidence, said: Sum) -> Finding:
    speech = evidence.reading.speech
    unit = next(unit for unit in map(_unit, (said.result, said.first, said.second)) if unit)
    right = plain(Amount(said.right.normalize(), said.right.normalize(), unit))
    begin, _ = speech.span_times(said.first.start, said.first.end)
    start, end = speech.span_times(said.result.start, said.result.end)
    reckoning = f"{number(said.first.value)} {SIGNS[said.sign]} {number(said.second.value)}"
    message = f'{reckoning} is {right}, and "{speech.said(said.result.start, said.result.end)}" was said.'
    return Finding(
        NAME, "query", begin, end, speech.said(said.first.start, said.result.end), message, right, None,
        "it was reckoned or said wrong", card(f"Correction: {reckoning} = {right}", start),
    )  # fmt: skip
