"""SubRip (.srt): a counter, a line `00:02:17,440 --> 00:02:20,375`, the text, an empty line.

There is no standard; the form is described in the Matroska codec specification (cellar-codec/subtitles.md). Taken as
well, because real files
have them: a point for the comma, no counter, no empty line between captions, coordinates after the times, HTML-like
tags.
"""

import re

from witnessmark.transcript.base import Captions, TimedText, marked_up_pieces, seconds
from witnessmark.transcript.model import ReadingNote
from witnessmark.transcript.timeline import Block, end_of_last, filled_lines, over_59, unreadable_time

NAME = "SubRip"

_TIME = r"([0-9]{1,9}):([0-9]{1,2}):([0-9]{1,2})(?:[,.]([0-9]{1,3}))?(?![0-9])"
_TIMINGS = re.compile(rf"\s*{_TIME}\s*-->\s*{_TIME}(?:\s.*)?")
_COUNTER = re.compile(r"\s*\ufeff?[0-9]{1,9}\s*")


_LETTER = re.compile(r"[^\W\d_]")


def recognises(text: str) -> bool:
    """Whether text begins with a counter and a line of times, or with times written with a comma."""
    lines = [*filled_lines(text, 2), "", ""]
    if _COUNTER.fullmatch(lines[0]):
        return "-->" in lines[1]
    return _TIMINGS.fullmatch(lines[0]) is not None and "," in lines[0].partition("-->")[0]


def read(text: str) -> Captions:
    """The captions of a SubRip file.

    A time line that cannot be read keeps its words: they run from the caption before to the one after.
    """
    notes: list[ReadingNote] = []
    cues: list[TimedText] = []
    for block in _blocks(text):
        start, end = _times(block, cues, notes)
        cues.append(TimedText(start, end, marked_up_pieces(block.text), block.line))
    return Captions(tuple(cues), tuple(notes))


def _blocks(text: str) -> list[Block]:
    lines = text.split("\n")
    numbered = _COUNTER.fullmatch(next(filled_lines(text, 1), "")) is not None
    blocks = [Block(0, None)]
    for number, line in enumerate(lines, start=1):
        if _gives_times(line):
            before = blocks[-1].lines
            if numbered and before and _COUNTER.fullmatch(before[-1]):
                before.pop()
            blocks.append(Block(number, line))
        else:
            blocks[-1].lines.append(line)
    return blocks[1:]


def _gives_times(line: str) -> bool:
    """Whether a line holds times or was meant to: an arrow between figures, and no words."""
    if "-->" not in line or len(line) > 200:
        return False
    return _TIMINGS.fullmatch(line) is not None or len(_LETTER.findall(line)) <= 3


def _times(block: Block, before: list[TimedText], notes: list[ReadingNote]) -> tuple[float, float | None]:
    found = _TIMINGS.fullmatch(block.time or "")
    if not found:
        notes.append(unreadable_time(block))
        return end_of_last(before), None
    parts = [part and (part.ljust(3, "0") if index % 4 == 3 else part) for index, part in enumerate(found.groups())]
    if any(int(parts[index] or 0) > 59 for index in (1, 2, 5, 6)):
        notes.append(over_59(block))
    return seconds(*parts[:4]), seconds(*parts[4:])
