"""Spoken arithmetic that does not add up.

*said*: 38 and 64 so a hundred and twelve bucks · *found*: 38 and 64 is 102.
Source: arithmetic; how far people round when they speak is common practice.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from witnessmark.house_style import plain
from witnessmark.language.cues import Cues
from witnessmark.proof.check_words import find_words
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding
from witnessmark.proof.wording import card, number
from witnessmark.quantity import Amount
from witnessmark.reading.model import Mention
from witnessmark.units import dimension

NAME = "arithmetic"
SUMMED = frozenset({"money", "mass", "volume", "length", "time"})
BETWEEN, RESULT = 7, 6  # most tokens between the operands, and from the last one to the result
ROUNDED = Decimal("0.1")  # share by which a result called rough may be off
FREE = frozenset({".", ",", "!", "?", "altogether", "total", "all", "in", "so", "and", "left"})
SIGNS = {"plus": "+", "minus": "−", "times": "×"}


@dataclass(frozen=True, slots=True)
class Sum:
    """Two figures joined by a word, and the result said. sign: plus, minus or times. unit: the one that was said."""

    first: Mention
    second: Mention
    result: Mention
    sign: str
    unit: str

    @property
    def right(self) -> Decimal:
        """What it comes to."""
        one, two = _figure(self.first), abs(_figure(self.second))
        return {"plus": one + two, "minus": one - two, "times": one * two}[self.sign]


def check(evidence: Evidence) -> Iterator[Finding]:
    """Sums, differences and products of money, weights, volumes, sizes and times whose every part is said."""
    texts = evidence.reading.speech.texts
    words = find_words(texts, "arithmetic")
    said = [mention for mention in evidence.mentions if mention.amount is not None and mention.role != "retracted"]
    for three in zip(said, said[1:], said[2:], strict=False):
        found = _sum(texts, words, three)
        if found is not None and not _adds_up(words, found):
            yield _finding(evidence, found)


def _sum(texts: Sequence[str], words: Cues, three: Sequence[Mention]) -> Sum | None:
    first, second, result = three
    if (
        any(mention.whole != mention.amount for mention in three)
        or second.first - first.end > BETWEEN
        or result.first - second.end > RESULT
    ):
        return None
    if words.has("either", first.first - 2, first.first) or words.has("either", first.end, second.first):
        return None
    # "twelve minus three": reading takes "minus three" for a figure below nought.
    sign = "minus" if texts[second.first] == "minus" else _sign(words, first, second)
    if sign is None or not _leads_on(words, sign, second, result):
        return None
    unit = _unit_of_all(texts, sign, three)
    return Sum(first, second, result, sign, unit) if unit else None


def _sign(words: Cues, first: Mention, second: Mention) -> str | None:
    """The word that joins the operands; where more than one could, none does."""
    signs = [sign for sign in SIGNS if words.has(sign, first.end, second.first)]
    return signs[0] if len(signs) == 1 else None


def _leads_on(words: Cues, sign: str, second: Mention, result: Mention) -> bool:
    """Whether words lead from the operands to the result: "makes", "that's" right before it, a bare "so" between."""
    low, high = second.end, result.first
    if words.has("makes", low, high) or (sign == "minus" and words.has("leaves", low, high)):
        return True
    if any(
        high - end <= 2 and (end - start > 1 or start - low <= 2) for start, end in words.between("gives", low, high)
    ):
        return True
    return words.has("total_after", result.end, result.end + 2) and high - low <= 2


def _unit_of_all(texts: Sequence[str], sign: str, three: Sequence[Mention]) -> str | None:
    """The one unit that was said, where it is of what people add up and the figures can be reckoned with; else None."""
    told = [_unit(mention) for mention in three]
    known = {unit for unit in told if unit}
    if len(known) != 1 or dimension(next(iter(known))) not in SUMMED:
        return None
    if sign == "times":
        fits = (told[0] is None) != (told[1] is None) and told[2] is not None
    else:
        # A figure that counts a thing ("two of them") is no part of a sum of money.
        fits = told[2] is not None or (told[0] is not None and told[1] is not None and _stands_alone(texts, three[2]))
    return next(iter(known)) if fits else None


def _unit(mention: Mention) -> str | None:
    assert mention.amount is not None
    return None if mention.inferred else mention.amount.unit or None


def _stands_alone(texts: Sequence[str], mention: Mention) -> bool:
    return mention.end >= len(texts) or texts[mention.end] in FREE


def _figure(mention: Mention) -> Decimal:
    assert mention.amount is not None
    return mention.amount.low


def _adds_up(words: Cues, said: Sum) -> bool:
    """Whether the result is right as people round: to its own last digit, by a tenth where it is called rough."""
    right, result = said.right, _figure(said.result)
    if right <= 0:
        return True
    slack = Decimal(1).scaleb(_place(result)) / 2
    if words.has("rounded", said.second.end - 1, said.result.end + 3) or words.has(
        "rounded", said.first.first - 3, said.first.first
    ):
        slack = max(slack, right * ROUNDED)
    return abs(right - result) <= slack


def _place(x: Decimal) -> int:
    """Exponent of the last digit that counts: a figure that ends in noughts was rounded to them."""
    exponent = x.normalize().as_tuple().exponent
    return exponent if isinstance(exponent, int) else 0


def _finding(evidence: Evidence, said: Sum) -> Finding:
    speech = evidence.reading.speech
    right = plain(Amount(said.right, said.right, said.unit))
    reckoning = f"{number(_figure(said.first))} {SIGNS[said.sign]} {number(abs(_figure(said.second)))}"
    message = f'{reckoning} is {right}, and "{said.result.said}" was said.'
    return Finding(
        NAME,
        "query",
        said.first.start,
        said.result.origin.end,
        speech.said(said.first.first, said.result.end),
        message,
        right,
        None,
        "it was reckoned or said wrong",
        card(f"Correction: {reckoning} = {right}", said.result.start),
        mentions=(said.first.id, said.second.id, said.result.id),
    )
