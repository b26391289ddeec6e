"""Stamped text: each time (`4:07`, `1:04:07`) on a line of its own, what was said from then on in the lines below
it.
"""

import re
from itertools import pairwise

from witnessmark.transcript.base import Captions, TimedText, marked_up_pieces, seconds
from witnessmark.transcript.model import ReadingNote
from witnessmark.transcript.timeline import FIRST_LINES, Block, before_first_time, filled_lines, over_59

NAME = "stamped text"

_STAMP = re.compile(r"\s*(?:([0-9]{1,4}):)?([0-9]{1,4}):([0-9]{2})(?:[.,]([0-9]{1,3}))?\s*")


def recognises(text: str) -> bool:
    """Whether one of the first lines is a time alone, with a line that is none below it."""
    lines = list(filled_lines(text, FIRST_LINES + 1))
    stamps = [len(line) < 40 and _STAMP.fullmatch(line) is not None for line in lines]
    return any(stamp and not below for stamp, below in pairwise(stamps))


def read(text: str) -> Captions:
    """The text under each time; a block ends where the next begins.

    Text before the first time is left out with a note.
    """
    blocks = [Block(0, None)]
    for number, line in enumerate(text.split("\n"), start=1):
        if len(line) < 40 and _STAMP.fullmatch(line):
            blocks.append(Block(number, line.strip()))
        else:
            blocks[-1].lines.append(line)
    notes = before_first_time(blocks[0].text)
    cues = []
    for block in blocks[1:]:
        cues.append(TimedText(stamp_seconds(block, notes), None, marked_up_pieces(block.text), block.line))
    return Captions(tuple(cues), tuple(notes))


def stamp_seconds(block: Block, notes: list[ReadingNote]) -> float:
    """Seconds of a block's time.

    `75:10` is 75 minutes; seconds over 59, or minutes over 59 after an hour, are counted on, with a note.
    """
    found = _STAMP.fullmatch(block.time or "")
    if not found:
        raise ValueError(block.time)
    hours, minutes, secs, fraction = found.groups()
    if int(secs) > 59 or (hours and int(minutes) > 59):
        notes.append(over_59(block))
    return seconds(hours, minutes, secs, fraction)
