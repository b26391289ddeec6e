"""SBV: a line `0:00:01.000,0:00:03.500`, the text, an empty line.

There is no published standard; the form is *common practice*.
"""

import re

from witnessmark.transcript.base import Captions, TimedText, marked_up_pieces, seconds
from witnessmark.transcript.model import ReadingNote
from witnessmark.transcript.timeline import Block, end_of_last, filled_lines, unreadable_time

NAME = "SBV"

_TIME = r"([0-9]{1,9}):([0-5]?[0-9]):([0-5]?[0-9])\.([0-9]{3})"
_TIMINGS = re.compile(rf"\s*{_TIME}\s*,\s*{_TIME}\s*")
_LINE_BREAK = re.compile(r"\[br\]", re.IGNORECASE)
_LIKE_TIMINGS = re.compile(r"\s*[0-9]+:[0-9:.]+\s*,\s*[0-9]+:[0-9:.]+\s*")


def recognises(text: str) -> bool:
    """Whether the first line with text is a pair of times."""
    return _TIMINGS.fullmatch(next(filled_lines(text, 1), "")) is not None


def read(text: str) -> Captions:
    """The captions of an SBV file.

    A pair of times that cannot be read keeps its words: they run from the caption before to the one after.
    """
    notes: list[ReadingNote] = []
    cues: list[TimedText] = []
    for block in _blocks(text):
        found = _TIMINGS.fullmatch(block.time or "")
        if found:
            parts = found.groups()
            start, end = seconds(*parts[:4]), seconds(*parts[4:])
        else:
            start, end = end_of_last(cues), None
            notes.append(unreadable_time(block))
        cues.append(TimedText(start, end, marked_up_pieces(_LINE_BREAK.sub("\n", block.text)), block.line))
    return Captions(tuple(cues), tuple(notes))


def _blocks(text: str) -> list[Block]:
    blocks = [Block(0, None)]
    for number, line in enumerate(text.split("\n"), start=1):
        if len(line) < 100 and _LIKE_TIMINGS.fullmatch(line):
            blocks.append(Block(number, line.strip()))
        else:
            blocks[-1].lines.append(line)
    return blocks[1:]
