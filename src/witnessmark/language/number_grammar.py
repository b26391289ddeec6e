"""The grammar of one spoken number: atoms below a hundred, whole numbers, fractions and decimal places.

Every reader takes the words and a place to start, and returns what stands there with the place after it, or None. The
words end in "" (see `padded`), which no reader accepts, so that each may look ahead without asking where the end is.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from math import gcd
from typing import NamedTuple

from witnessmark.data import read_toml

LOOK_AHEAD = 4
WRITTEN_INTEGER = re.compile(r"[0-9]+")
WRITTEN_FRACTION = re.compile(r"([0-9]{1,6})/([0-9]{1,6})")

# The parts of an inch, and only these, are said in the singular after more than one: "three eighth drive".
INCH_PARTS = frozenset({4, 8, 16, 32, 64})


class Whole(NamedTuple):
    """A whole number and the place after it. atom: it stands below a hundred, without "hundred" or "thousand"."""

    value: int
    end: int
    atom: bool


class Part(NamedTuple):
    """A fraction, not reduced, and the place after it."""

    numerator: int
    denominator: int
    end: int


@dataclass(frozen=True, slots=True)
class Words:
    """The tables of data/number_words.toml, with the plurals formed."""

    digits: dict[str, int]
    teens: dict[str, int]
    tens: dict[str, int]
    scales: dict[str, int]
    ordinals: dict[str, int]
    denominators: dict[str, int]
    plurals: dict[str, int]
    zero: frozenset[str]
    oh: frozenset[str]
    minus: frozenset[str]
    vague: frozenset[str]
    place: frozenset[str]


@cache
def vocabulary() -> Words:
    """The number words, read once."""
    table = read_toml("number_words.toml")
    parts = {word: n for word, n in table["ordinals"].items() if n > 2}
    sizes = {word: n for word, n in (table["digits"] | table["teens"] | table["tens"]).items() if n > 1}
    listed = {name: frozenset(words) for name, words in table["words"].items()}
    return Words(
        digits=table["digits"],
        teens=table["teens"],
        tens=table["tens"],
        scales=table["scales"],
        ordinals=table["ordinals"],
        denominators=table["denominators"] | parts | {word + "s": n for word, n in parts.items()},
        plurals={_plural(word): n for word, n in sizes.items()},
        zero=listed["zero"],
        oh=listed["oh"],
        minus=listed["minus"],
        vague=listed["vague"],
        place=listed["place"],
    )


def _plural(word: str) -> str:
    if word.endswith("y"):
        return word[:-1] + "ies"
    return word + ("es" if word.endswith("x") else "s")


def padded(tokens: Sequence[str]) -> list[str]:
    """The tokens with "" behind them for as far as a reader looks ahead."""
    return [*tokens, *[""] * LOOK_AHEAD]


def read_atom(words: Sequence[str], i: int) -> Whole | None:
    """One to ninety nine: "nine", "seventeen", "twenty five"."""
    v = vocabulary()
    word = words[i]
    if word in v.tens:
        return _tens(words, i)
    value = v.digits.get(word) or v.teens.get(word)
    return Whole(value, i + 1, True) if value else None


def _tens(words: Sequence[str], i: int) -> Whole:
    v = vocabulary()
    tens = v.tens[words[i]]
    digit = v.digits.get(words[i + 1])
    if digit is None:
        return Whole(tens, i + 1, True)
    # "twenty three eighths" is twenty and three eighths: nobody counts that many eighths.
    part = _denominator(words, i + 2)
    if part and part.denominator <= tens + digit:
        return Whole(tens, i + 1, True)
    return Whole(tens + digit, i + 2, True)


def read_two_digits(words: Sequence[str], i: int) -> Whole | None:
    """Ten to ninety nine."""
    atom = read_atom(words, i)
    return atom if atom and atom.value >= 10 else None


def read_hundreds(words: Sequence[str], i: int) -> Whole | None:
    """A number without thousands: "a hundred and ten", "fourteen hundred", at most "ninety nine hundred and one"."""
    v = vocabulary()
    if words[i] == "hundred":
        head = Whole(1, i, False)
    elif words[i] == "a" and (words[i + 1] == "hundred" or words[i + 1] in v.scales):
        head = Whole(1, i + 1, False)
    else:
        atom = read_atom(words, i)
        if atom is None:
            return None
        head = atom
    if words[head.end] != "hundred":
        return head
    tail = _tail_of_hundred(words, head.end + 1)
    return Whole(head.value * 100 + tail.value, tail.end, False)


def _tail_of_hundred(words: Sequence[str], i: int) -> Whole:
    nothing = Whole(0, i, False)
    start = i + (words[i] == "and")
    atom = read_atom(words, start)
    if atom is None or read_part(words, start) or words[atom.end] == "hundred":
        return nothing
    # "between a hundred and one ten": the one belongs to the ten.
    if atom.value < 10 and read_two_digits(words, atom.end):
        return nothing
    return atom


def read_whole(words: Sequence[str], i: int) -> Whole | None:
    """A whole number with its thousands: "sixty two thousand", "two thousand five hundred", "one twenty thousand"."""
    v = vocabulary()
    group = _pair_of_thousands(words, i) or read_hundreds(words, i)
    if group is None:
        return Whole(*_scaled(words, 1, i, 0)) if words[i] in v.scales else None
    if words[group.end] not in v.scales:
        return group
    return Whole(*_scaled(words, group.value, group.end, 0))


def _scaled(words: Sequence[str], value: int, i: int, before: int) -> Whole:
    """The number whose group `value` stands before the scale word at i; `before` is what larger scales have given."""
    scales = vocabulary().scales
    scale = scales[words[i]]
    total, end = before + value * scale, i + 1
    start = end + (words[end] == "and")
    rest = _pair(words, start) or read_hundreds(words, start)
    if rest is None or rest.value >= 1000 or read_part(words, start):
        return Whole(total, end, False)
    following = scales.get(words[rest.end])
    if following is None:
        return Whole(total + rest.value, rest.end, False)
    return _scaled(words, rest.value, rest.end, total) if following < scale else Whole(total, end, False)


def _pair(words: Sequence[str], i: int) -> Whole | None:
    """A hundred left out: "four fifty" for four hundred and fifty."""
    digit = vocabulary().digits.get(words[i])
    rest = read_two_digits(words, i + 1) if digit else None
    return Whole(digit * 100 + rest.value, rest.end, False) if digit and rest and words[rest.end] != "hundred" else None


def _pair_of_thousands(words: Sequence[str], i: int) -> Whole | None:
    pair = _pair(words, i)
    return pair if pair and words[pair.end] in vocabulary().scales else None


def read_part(words: Sequence[str], i: int) -> Part | None:
    """A fraction: "half", "a quarter", "three eighths", "five sixteenth", "seven thirty seconds", "3/8"."""
    word = words[i]
    if written := WRITTEN_FRACTION.fullmatch(word):
        numerator, denominator = map(int, written.groups())
        return Part(numerator, denominator, i + 1) if denominator else None
    if word in ("half", "quarter"):
        return Part(1, vocabulary().denominators[word], i + 1)
    part = _denominator(words, i + 1) if word in ("a", "an") else None
    if part:
        return None if words[part.end - 1].endswith("s") else part
    atom = read_atom(words, i)
    part = _denominator(words, atom.end) if atom else None
    if atom is None or part is None or not _counts(atom.value, part.denominator, words[part.end - 1]):
        return None
    return Part(atom.value, part.denominator, part.end)


def _counts(numerator: int, denominator: int, word: str) -> bool:
    """Whether so many of this part are said: "two thirds", "three eighth" but not "two quarter inch bolts"."""
    plural = word.endswith("s")
    if numerator == 1:
        return not plural
    reduced = gcd(numerator, denominator) == 1
    if not plural:
        return (
            denominator in INCH_PARTS and (denominator, word) != (4, "fourth") and reduced and numerator < denominator
        )
    if word == "seconds":
        return reduced
    return numerator < max(denominator, 20)


def _denominator(words: Sequence[str], i: int) -> Part | None:
    """One part, as Part(1, its denominator, end): "eighth", "eighths", "sixty fourths", "thirty seconds"."""
    v = vocabulary()
    word = words[i]
    if word in v.denominators:
        return Part(1, v.denominators[word], i + 1)
    if word not in v.tens:
        return None
    last = words[i + 1].removesuffix("s")
    digit = v.ordinals.get(last, 0)
    # Of all seconds only the thirty second part of an inch is a fraction; the rest are time.
    if 3 <= digit <= 9 or (digit == 2 and v.tens[word] == 30):
        return Part(1, v.tens[word] + digit, i + 2)
    return None


def read_places(words: Sequence[str], i: int) -> tuple[str, int]:
    """The digits after "point" and the place after them; no digits when none stand there.

    "oh four four" is "044", "twenty five" is "25". A digit that begins the next number is left to it.
    """
    v = vocabulary()
    said, end = "", i
    while True:
        word = words[end]
        following = words[end + 1]
        if WRITTEN_INTEGER.fullmatch(word) and not said.strip("0"):
            return said + word, end + 1
        if word in v.zero or (word in v.oh and (not said or following in v.digits or following in v.zero)):
            said += "0"
        elif word in v.digits and not (said and (following == "point" or read_part(words, end))):
            said += str(v.digits[word])
        else:
            two = read_two_digits(words, end) if not said.strip("0") else None
            return (said + str(two.value), two.end) if two else (said, end)
        end += 1


def ordinal_tail(words: Sequence[str], head: Whole | None, i: int) -> Whole | None:
    """The ordinal that begins at i, where `head` is the whole number that is read there, if any: "twenty first"."""
    v = vocabulary()
    if head is None:
        value = v.ordinals.get(words[i])
        return Whole(value, i + 1, False) if value else None
    end = head.end + (head.value % 100 == 0 and words[head.end] == "and")
    last = v.ordinals.get(words[end], 0)
    tens = words[head.end - 1] in v.tens
    if (head.value % 100 == 0 and 0 < last < 100) or (tens and 0 < last < 10):
        return Whole(head.value + last, end + 1, False)
    if head.atom and last == 100:
        return Whole(head.value * 100, end + 1, False)
    return None
