"""How captions are laid out so that they can be read: length of lines, number of lines, time on the screen.

All figures are common practice of captioning.
"""

import re
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

LONGEST_LINE = 42
"""Characters a line."""
MOST_LINES = 2
SHORTEST, LONGEST = 1.0, 7.0
"""Seconds on the screen."""

_DASH = re.compile(r"[-–—]+")
_SENTENCE_END, _COMMA = (".", "?", "!", '."', '?"', '!"'), (",", ";", ":")
GOOD_BREAKS = ((_SENTENCE_END, 0.4), (_COMMA, 0.2))
"""How much better than the middle a place is after which speech stops, as a share of the whole text."""


@dataclass(frozen=True, slots=True)
class Atom:
    """Text that stays together: a word, or a value of several. start, end: seconds. count: words captioned that it holds."""

    text: str
    start: float
    end: float
    count: int = 1


def lines_of(atoms: Sequence[Atom]) -> tuple[str, ...] | None:
    """The text in at most two lines of at most 42 characters, balanced; None where it is too long for that."""
    text = joined(atoms)
    if len(text) <= LONGEST_LINE:
        return (text,)
    pairs = ((joined(atoms[:i]), joined(atoms[i:])) for i in breaks(atoms))
    fitting = [pair for pair in pairs if max(map(len, pair)) <= LONGEST_LINE]
    return min(fitting, key=lambda pair: _badness(*pair)) if fitting else None


def laid_out(atoms: Sequence[Atom]) -> tuple[str, ...]:
    """The same, and for what cannot be parted (a very long word, a long sound note) as many lines as it takes."""
    return lines_of(atoms) or tuple(textwrap.wrap(joined(atoms), LONGEST_LINE, break_long_words=False))


def best_break(atoms: Sequence[Atom]) -> int | None:
    """Where a text that is too long for one caption is best parted: near the middle, where speech stops."""
    places = [(_badness(joined(atoms[:i]), joined(atoms[i:])), i) for i in breaks(atoms)]
    return min(places)[1] if places else None


def breaks(atoms: Sequence[Atom]) -> Iterator[int]:
    """Where a line may end. None begins with a dash: it would be read as the mark of another speaker."""
    return (i for i in range(1, len(atoms)) if not _DASH.fullmatch(atoms[i].text.split(" ", 1)[0]))


def joined(atoms: Sequence[Atom]) -> str:
    """The text on one line."""
    return " ".join(atom.text for atom in atoms)


def _badness(before: str, after: str) -> float:
    """From 0 where two parts are alike in length; less where the first ends with a sentence or a comma."""
    bonus = next((bonus for ends, bonus in GOOD_BREAKS if before.endswith(ends)), 0.0)
    return abs(len(before) - len(after)) / (len(before) + len(after)) - bonus
