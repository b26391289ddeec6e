"""Which stretches of caption text are spoken: not sound notes, speaker marks, music signs, invisible characters."""

import re
import unicodedata
from functools import cache

from witnessmark.data import read_toml

_OVERRIDE = re.compile(r"\{\\[^{}]*\}")
_NOTE = re.compile(r"\[[^\[\]0-9]{0,80}\]|\(([^()0-9]{1,60})\)")
_CHEVRONS = re.compile(r"(?<!\S)>>+")
_LEADING_DASH = re.compile(r"^[ \t]*[-–—](?=\s)", re.MULTILINE)  # elsewhere in a line a dash can stand for "to"
_MUSIC = re.compile(r"[♩♪♫♬]+")
_WORD = re.compile(r"\S+")
_LETTERS = re.compile(r"[^\W\d_]+")


def visible(text: str) -> str:
    """Text as a viewer sees it, without position codes such as {\\an8} or invisible characters."""
    text = _OVERRIDE.sub("", text)
    if text.isascii():
        return text
    return "".join(" " if char == "\u00a0" else char for char in text if unicodedata.category(char) != "Cf")


def spoken_words(text: str) -> list[tuple[int, int]]:
    """Begin and end index in text of each spoken word, in order; words are parted by white space only."""
    text = _NOTE.sub(_blank_sound_note, text)
    for mark in (_CHEVRONS, _LEADING_DASH, _MUSIC):
        text = mark.sub(_blanks, text)
    return [word.span() for word in _WORD.finditer(text)]


def _blanks(found: re.Match[str]) -> str:
    return " " * len(found[0])


def _blank_sound_note(found: re.Match[str]) -> str:
    in_round_brackets = found[1]
    if in_round_brackets is not None and not _sounds().intersection(_LETTERS.findall(in_round_brackets.casefold())):
        return found[0]
    return _blanks(found)


@cache
def _sounds() -> frozenset[str]:
    return frozenset(read_toml("sound_notes.toml")["sounds"])
