"""What every caption format gives and what it must be able to do.

To add a format:

1. Write one module here with ``NAME`` (as a person would call the format), ``recognises(text)`` and ``read(text)``,
   as `CaptionFormat` describes them.
2. Let ``recognises`` look at the content alone, near its start, and say yes only to its own format.
3. Let ``read`` give every caption as the file has it, in file order, markup removed; put in a `ReadingNote` what it
   could not use.
4. Add the module to ``FORMATS`` in formats.py, before any format that would take its files for its own, and a fixture
   to the tests.

Repeats, order, sound notes and word times are no concern of a format: assembly does them for all.
"""

import html
import re
from dataclasses import dataclass
from typing import Protocol

from witnessmark.transcript.model import ReadingNote


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of caption text. start, end: seconds, where the file times this stretch by itself, else None."""

    text: str
    start: float | None = None
    end: float | None = None


@dataclass(frozen=True, slots=True)
class TimedText:
    """One caption as the file has it.

    start, end: seconds; end is None where the file gives none. line: 1-based, of its time.
    """

    start: float
    end: float | None
    pieces: tuple[Piece, ...]
    line: int

    @property
    def text(self) -> str:
        """The whole visible text, lines parted by \\n."""
        return "".join(piece.text for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class Captions:
    """All captions of a file, in file order, and what was odd about it."""

    cues: tuple[TimedText, ...]
    notes: tuple[ReadingNote, ...] = ()


class CaptionFormat(Protocol):
    """The interface of a format module."""

    @property
    def NAME(self) -> str:
        """The format's name for people."""

    def recognises(self, text: str) -> bool:
        """Whether text (line ends already \\n) is of this format."""

    def read(self, text: str) -> Captions:
        """Read text that ``recognises`` said yes to. Raises FormatError where nothing of it can be used."""


class FormatError(Exception):
    """A file of a known format that cannot be read at all. problem, remedy: as in InputError."""

    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__(problem, remedy)
        self.problem, self.remedy = problem, remedy


_TAG = re.compile(r"</?[A-Za-z][^<>]*>")
_INLINE_TIME = re.compile(r"<(?:([0-9]{1,9}):)?([0-9]{2}):([0-9]{2})[.,]([0-9]{3})>")


def seconds(hours: str | None, minutes: str | None, secs: str | None, fraction: str | None = None) -> float:
    """Seconds of a time given by its digits; fraction is what follows the decimal mark.

    Sums in whole parts: no rounding error.
    """
    whole = int(hours or 0) * 3600 + int(minutes or 0) * 60 + int(secs or 0)
    if not fraction:
        return float(whole)
    scale: int = 10 ** len(fraction)
    return (whole * scale + int(fraction)) / scale


def marked_up_pieces(text: str) -> tuple[Piece, ...]:
    """Pieces of text that may hold HTML-like tags, entities and inline times; a < that opens no tag is text."""
    pieces: list[Piece] = []
    at = 0
    start: float | None = None
    for time in _INLINE_TIME.finditer(text):
        pieces.append(Piece(_plain(text[at : time.start()]), start))
        at, start = time.end(), seconds(*time.groups())
    pieces.append(Piece(_plain(text[at:]), start))
    return tuple(piece for piece in pieces if piece.text)


def _plain(text: str) -> str:
    return unescaped(_TAG.sub("", text))


def unescaped(text: str) -> str:
    """Text with its HTML character references replaced; one with thousands of digits stands for nothing and stays."""
    try:
        return html.unescape(text)
    except ValueError:
        return text


def shortened(text: str, length: int = 60) -> str:
    """The text on one line, cut to about length characters, for a message."""
    line = " ".join(text[: 4 * length].split())
    return line if len(line) <= length and len(text) <= 4 * length else line[: length - 1] + "…"
