"""Chapters as players take them."""

from dataclasses import dataclass

from witnessmark.procedure.model import Chapter
from witnessmark.publication.escape import printable
from witnessmark.publication.manuscript import Manuscript

SHORTEST = 10.0
"""Seconds: players leave out a list with a shorter chapter (common practice)."""
FEWEST = 3
"""Chapters: players that read a description leave out a shorter list (common practice)."""


@dataclass(frozen=True, slots=True)
class ChapterSpan:
    """A chapter from start to end, in whole milliseconds; each ends where the next begins."""

    start: int
    end: int
    title: str


def playable(chapters: tuple[Chapter, ...], duration: float) -> tuple[Chapter, ...]:
    """The chapters that players take: the first at 0:00, each long enough; none where fewer than three are left."""
    kept = _long_enough(chapters, duration)
    return kept if len(kept) >= FEWEST else ()


def chapter_spans(manuscript: Manuscript) -> tuple[ChapterSpan, ...]:
    """The same chapters for the formats that carry them in a file of their own.

    Those set no least number. A recording without chapters is one, under the title of the project.
    """
    examination = manuscript.examination
    duration = examination.reading.speech.transcript.duration
    title = printable(examination.project.title)
    marks = _long_enough(examination.procedure.chapters, duration) or (Chapter(0.0, title),)
    starts = [round(mark.start * 1000) for mark in marks]
    ends = [*starts[1:], max(round(duration * 1000), starts[-1] + 1)]
    return tuple(
        ChapterSpan(start, end, printable(mark.title) or title)
        for mark, start, end in zip(marks, starts, ends, strict=True)
    )


def _long_enough(chapters: tuple[Chapter, ...], duration: float) -> tuple[Chapter, ...]:
    kept: list[Chapter] = []
    for chapter in sorted(chapters, key=lambda each: each.start):
        start = float(int(chapter.start)) if kept else 0.0
        if kept and start - kept[-1].start < SHORTEST:
            continue
        kept.append(Chapter(start, chapter.title))
    while len(kept) > 1 and duration - kept[-1].start < SHORTEST:
        kept.pop()
    return tuple(kept)
