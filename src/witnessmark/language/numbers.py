"""Numbers as they are spoken and as captions print them.

The policies, for speech does not mark where one number ends and the next begins:

- *Lists stay apart.* "ten twelve fourteen" are three numbers, "thirty thirty five" two, "six two" two. Written figures
  are never joined with each other, but for thousands ("62" "000") and mixed numbers ("14" "5/8").
- *A hundred left out.* One digit and a number of two digits are one number: "one ten" is 110, "one sixty one" 161,
  "one oh five" 105. So are the two halves of a year from 1910 to 2029: "nineteen eighty four", "twenty fifteen";
  "twenty thirty" is two numbers. Three or more that only rise or only fall are a list all the same: "five ten fifteen".
  What was joined keeps its parts in `apart`, for "two ten mil bolts" are two bolts with a head of ten millimetres, and
  only what stands around the number tells.
- *Fractions.* "half" and "quarter" are fractions wherever they stand. The other parts need a count or an article:
  "three eighths", "five sixteenth", "an eighth". "third" alone is an ordinal, "a third" a fraction (its `apart` holds
  the ordinal). "thousandths" is a unit.
- *Seconds.* "second" alone is an ordinal; "twenty second" is the ordinal 22 with 20 in `apart`; "thirty seconds" is 30
  and a unit; "five thirty seconds" is 5/32.
- *Points.* "point five" is 0.5, "at this point five" is 5. "two point twenty five" is 2.25. Zeros that were said stay:
  "six point oh" is 6.0.
- *Words that are no numbers*: "oh", "a" and "an" on their own, "couple", "dozen", "hundreds", "a few hundred". "one" is
  a number, also where it is a pronoun: this module knows no grammar but that of numbers.
- *Plurals of sizes* are numbers: "these are tens", "one seventies" (170). "ones" is not.
- *Minus* counts where no number stands before it: "minus eighteen" is -18, "twenty minus five" two numbers.
- Punctuation ends a number.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from itertools import pairwise
from typing import Literal

from witnessmark.language.number_grammar import (
    WRITTEN_INTEGER,
    Part,
    Whole,
    ordinal_tail,
    padded,
    read_part,
    read_places,
    read_whole,
    vocabulary,
)

Form = Literal["cardinal", "ordinal", "fraction", "decimal", "mixed"]

WRITTEN_DECIMAL = re.compile(r"[-+−]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)")
WRITTEN_STARTS = frozenset("0123456789.+-−")
ZERO_THOUSANDS = re.compile(r"0[0-9]{2}")
WRITTEN_ORDINAL = re.compile(r"([0-9]+)(?:st|nd|rd|th)")


@dataclass(frozen=True, slots=True)
class Number:
    """A number in a sequence of tokens.

    start, end: the tokens it takes up, end exclusive. written: figures in the captions, not words.
    apart: the numbers that the same words are when they are not one number, where both readings are common; else empty.
    """

    start: int
    end: int
    value: Decimal
    form: Form
    written: bool
    apart: tuple["Number", ...] = ()


def read_numbers(tokens: Sequence[str]) -> tuple[Number, ...]:
    """Every number among the tokens (lower case, hyphens inside words split), in order and without overlap.

    Takes time in proportion to the tokens and never raises.
    """
    words = padded(tokens)
    found: list[Number] = []
    i = 0
    while i < len(tokens):
        follows_number = bool(found) and found[-1].end == i
        numbers = _numbers_at(words, i, follows_number) if _may_start(words[i]) else []
        found += numbers
        i = numbers[-1].end if numbers else i + 1
    return tuple(found)


def _may_start(word: str) -> bool:
    return word in _first_words() or word[:1] in WRITTEN_STARTS


@cache
def _first_words() -> frozenset[str]:
    v = vocabulary()
    tables = (v.digits, v.teens, v.tens, v.scales, v.ordinals, v.plurals)
    others = frozenset({"a", "an", "half", "quarter", "hundred", "point"})
    return others.union(v.zero, v.oh, v.minus, *tables)


def _numbers_at(words: Sequence[str], i: int, follows_number: bool) -> list[Number]:
    """The numbers that begin at i and touch one another; none where no number begins."""
    if words[i] in vocabulary().minus:
        return _negative(words, i, follows_number)
    number = _written(words, i, follows_number) or _part(words, i) or _below_one(words, i)
    return [number] if number else _spoken(words, i)


def _negative(words: Sequence[str], i: int, follows_number: bool) -> list[Number]:
    # "twenty minus five" is a sum, "plus or minus five" a tolerance.
    if follows_number or words[i - 1] in ("or", "plus") or words[i + 1] in vocabulary().minus:
        return []
    numbers = _numbers_at(words, i + 1, follows_number=True) if _may_start(words[i + 1]) else []
    if not numbers or numbers[0].form == "ordinal":
        return []
    return [replace(numbers[0], start=i, value=-numbers[0].value, apart=()), *numbers[1:]]


# --- figures


def _written(words: Sequence[str], i: int, follows_number: bool) -> Number | None:
    """A number in figures, or begun in figures: "35", ".044", "14" "5/8", "2" "and" "3/4", "62" "thousand", "3rd"."""
    word = words[i]
    if ordinal := WRITTEN_ORDINAL.fullmatch(word):
        return Number(i, i + 1, Decimal(ordinal[1]), "ordinal", written=True)
    if not WRITTEN_DECIMAL.fullmatch(word):
        return None
    # Straight after a number a sign is the dash of a range.
    figures = word.lstrip("-+−") if follows_number else word.replace("−", "-")
    if not WRITTEN_INTEGER.fullmatch(figures):
        value = Decimal(figures)
        form: Form = "decimal" if value.as_tuple().exponent else "cardinal"
        return _times_scale(words, Number(i, i + 1, value, form, written=True))
    end = i + 1
    while len(word) <= 3 and word[0] != "0" and ZERO_THOUSANDS.fullmatch(words[end]):
        figures += words[end]
        end += 1
    number = Number(i, end, Decimal(figures), "cardinal", written=True)
    start = end + (words[end] == "-")
    part = read_part(words, start) if "/" in words[start] else None
    if part and 0 < part.numerator < part.denominator and number.value:
        return _with_part(number, part)
    return _finished(words, number)


# --- fractions and decimal places


def _part(words: Sequence[str], i: int) -> Number | None:
    part = read_part(words, i)
    if part is None:
        return None
    alone = ordinal_tail(words, None, i + 1) if words[i] in ("a", "an") else None
    apart = (Number(i + 1, alone.end, Decimal(alone.value), "ordinal", written=False),) if alone else ()
    return Number(i, part.end, _quotient(part), "fraction", "/" in words[i], apart)


def _quotient(part: Part) -> Decimal:
    return Decimal(part.numerator) / Decimal(part.denominator)


def _with_part(number: Number, part: Part) -> Number:
    return replace(number, end=part.end, value=number.value + _quotient(part), form="mixed", apart=())


def _below_one(words: Sequence[str], i: int) -> Number | None:
    """A number without a whole part: "point oh four four", "oh point nine", "zero point eight"."""
    v = vocabulary()
    nought = words[i] in v.oh or words[i] in v.zero
    if words[i + nought] != "point":
        return None
    places, end = read_places(words, i + nought + 1)
    # "at this point two of them": a place or a moment, unless what follows can only be decimal places.
    if not places or (not nought and words[i - 1] in v.place and places[0] != "0"):
        return None
    return Number(
        i, end, Decimal(f"0.{places}"), "decimal", WRITTEN_INTEGER.fullmatch(words[i + nought + 1]) is not None
    )


# --- words


def _spoken(words: Sequence[str], i: int) -> list[Number]:
    """The numbers of a run of number words."""
    v = vocabulary()
    if _is_vague(words, i):
        return []
    whole = read_whole(words, i)
    if whole is None:
        alone = ordinal_tail(words, None, i)
        if alone:
            return [Number(i, alone.end, Decimal(alone.value), "ordinal", written=False)]
        value = 0 if words[i] in v.zero else v.plurals.get(words[i])
        return [] if value is None else [_cardinal(i, Whole(value, i + 1, True))]
    numbers = [_cardinal(i, whole)]
    if whole.atom:
        numbers = _joined(_run_of_atoms(words, numbers[0]))
    return [*numbers[:-1], _finished(words, numbers[-1])]


def _is_vague(words: Sequence[str], i: int) -> bool:
    """Whether the hundred or thousand at i is one of "a few hundred", "a couple of thousand"."""
    v = vocabulary()
    before = words[i - 2] if words[i - 1] == "of" else words[i - 1]
    return (words[i] == "hundred" or words[i] in v.scales) and before in v.vague


def _cardinal(start: int, whole: Whole) -> Number:
    return Number(start, whole.end, Decimal(whole.value), "cardinal", written=False)


def _run_of_atoms(words: Sequence[str], first: Number) -> list[Number]:
    """The numbers below a hundred that follow one another without a word between, from the first on."""
    run = [first]
    while True:
        end = run[-1].end
        whole = read_whole(words, end)
        if whole is None or not whole.atom or read_part(words, end):
            return run
        run.append(_cardinal(end, whole))


def _joined(run: list[Number]) -> list[Number]:
    """The run with hundreds and years put together, unless it is a list."""
    steps = [after.value - before.value for before, after in pairwise(run)]
    if len(run) > 2 and (all(step > 0 for step in steps) or all(step < 0 for step in steps)):
        return run
    numbers: list[Number] = []
    for number in run:
        if numbers and not numbers[-1].apart and _make_pair(int(numbers[-1].value), int(number.value)):
            before = numbers.pop()
            number = _pair(before, number)
        numbers.append(number)
    return numbers


def _make_pair(left: int, right: int) -> bool:
    """Whether two numbers below a hundred are said for one of three or four figures."""
    hundred = left < 10 and right >= 10
    year = (left == 19 and right >= 10) or (left == 20 and 10 <= right < 30)
    return hundred or year


def _pair(left: Number, right: Number) -> Number:
    return Number(left.start, right.end, left.value * 100 + right.value, "cardinal", written=False, apart=(left, right))


def _finished(words: Sequence[str], number: Number) -> Number:
    """A whole number with what may follow it: "oh five", "point two", "first", "and a half", "thousand"."""
    if not number.written:
        number = _with_last_digits(words, number)
    if words[number.end] == "point":
        places, end = read_places(words, number.end + 1)
        if places:
            number = replace(number, end=end, value=Decimal(f"{number.value}.{places}"), form="decimal", apart=())
        return _times_scale(words, number)
    if not number.written and (ordinal := _ordinal(words, number)):
        return ordinal
    # "ten and half inch sockets": only with a count or an article does a part belong to what goes before.
    start = number.end + 1
    if words[number.end] == "and" and words[start] not in ("half", "quarter"):
        part = read_part(words, start)
        if part and 0 < part.numerator < part.denominator:
            number = _with_part(number, part)
    return _times_scale(words, number)


def _with_last_digits(words: Sequence[str], number: Number) -> Number:
    """The number with the last digits of "one oh five", "nineteen oh four", "one seventies"."""
    v = vocabulary()
    word, following = words[number.end], words[number.end + 1]
    if not 0 < number.value <= 20:
        return number
    if (word in v.oh or word in v.zero) and following in v.digits:
        return _pair(
            number, Number(number.end + 1, number.end + 2, Decimal(v.digits[following]), "cardinal", written=False)
        )
    if number.value < 10 and v.plurals.get(word, 0) >= 10:
        return _pair(number, Number(number.end, number.end + 1, Decimal(v.plurals[word]), "cardinal", written=False))
    return number


def _ordinal(words: Sequence[str], number: Number) -> Number | None:
    """The ordinal that a whole number begins: "twenty first", "one hundred and third"."""
    atom = number.value < 100
    tail = ordinal_tail(words, Whole(int(number.value), number.end, atom), number.end)
    if tail is None:
        return None
    # "twenty second" may as well be a time.
    apart = (number,) if words[tail.end - 1] == "second" else ()
    return Number(number.start, tail.end, Decimal(tail.value), "ordinal", written=False, apart=apart)


def _times_scale(words: Sequence[str], number: Number) -> Number:
    """Figures and broken numbers before a scale: "62 thousand", "two and a half thousand", "1.2 million"."""
    scale = vocabulary().scales.get(words[number.end])
    if words[number.end] == "hundred" and number.written:
        scale = 100
    if scale is None:
        return number
    value = number.value * scale
    whole = value.to_integral_value()
    return replace(number, end=number.end + 1, value=whole if whole == value else value, apart=())
