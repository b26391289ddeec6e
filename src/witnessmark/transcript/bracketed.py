"""Bracketed text: a time in square brackets (`[4:07]`, `[1:04:07]`) before each block of what was said, often half
a minute long.
"""

import re

from witnessmark.transcript.base import Captions, TimedText, marked_up_pieces
from witnessmark.transcript.stamped import stamp_seconds
from witnessmark.transcript.timeline import FIRST_LINES, Block, before_first_time, filled_lines

NAME = "bracketed text"

_MARK = re.compile(r"\[((?:[0-9]{1,4}:)?[0-9]{1,4}:[0-9]{2}(?:[.,][0-9]{1,3})?)\]")


def recognises(text: str) -> bool:
    """Whether one of the first lines begins with a time in square brackets."""
    return any(_MARK.match(line) for line in filled_lines(text, FIRST_LINES))


def read(text: str) -> Captions:
    """The text after each time; a block ends where the next begins.

    Text before the first time is left out with a note.
    """
    cues: list[TimedText] = []
    marks = list(_MARK.finditer(text))
    notes = before_first_time(text[: marks[0].start()])
    line, counted = 1, 0
    for index, mark in enumerate(marks):
        line, counted = line + text.count("\n", counted, mark.start()), mark.start()
        end = marks[index + 1].start() if index + 1 < len(marks) else len(text)
        block = Block(line, mark[1], text[mark.end() : end].strip().split("\n"))
        cues.append(TimedText(stamp_seconds(block, notes), None, marked_up_pieces(block.text), line))
    return Captions(tuple(cues), tuple(notes))
