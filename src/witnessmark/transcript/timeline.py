"""Captions as lines of text under a line that gives the time: what SubRip, SBV and stamped text have in common."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from witnessmark.transcript.base import TimedText, shortened
from witnessmark.transcript.model import ReadingNote

FIRST_LINES = 5
"""How many lines with text may come before the first time: a title or a heading that was copied along."""


@dataclass(slots=True)
class Block:
    """The lines of text between two lines that give a time.

    line: 1-based number of the line with the time; time: that line, None before the first.
    """

    line: int
    time: str | None
    lines: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        """The block's text without its empty lines."""
        return "\n".join(line for line in self.lines if line.strip())


def filled_lines(text: str, count: int) -> Iterator[str]:
    """The first count lines of text that are not blank, stripped, without reading the rest."""
    at, found = 0, 0
    while at <= len(text) and found < count:
        end = text.find("\n", at)
        end = len(text) if end < 0 else end
        line = text[at:end].strip().lstrip("\ufeff")[:1000]
        if line:
            found += 1
            yield line
        at = end + 1


def end_of_last(cues: Sequence[TimedText]) -> float:
    """Seconds at which the last caption ends, or starts where it is open; 0.0 where there is none."""
    if not cues:
        return 0.0
    return cues[-1].start if cues[-1].end is None else cues[-1].end


def unreadable_time(block: Block) -> ReadingNote:
    """The note on a block whose time line means nothing."""
    said = shortened(block.time or "")
    return ReadingNote(
        block.line, f"the time line {said!r} cannot be read; its words are placed after the caption before"
    )


def over_59(block: Block) -> ReadingNote:
    """The note on a block whose time counts more than 59 minutes or seconds."""
    said = shortened(block.time or "")
    return ReadingNote(block.line, f"minutes or seconds over 59 in {said!r}; counted on into the next hour or minute")


def before_first_time(heading: str) -> list[ReadingNote]:
    """The note on text that stands before the first time, if there is such text."""
    if not heading.strip("\ufeff \t\n\f"):
        return []
    return [ReadingNote(1, f"text before the first time; left out: {shortened(heading)!r}")]
