"""chapters.txt: chapter marks for the description of the upload."""

from witnessmark.procedure.model import Chapter
from witnessmark.proof.wording import clock
from witnessmark.publication.escape import printable
from witnessmark.publication.manuscript import Manuscript

SHORTEST = 10.0
"""Seconds: players leave out a list with a shorter chapter (common practice)."""
FEWEST = 3
"""Chapters: players leave out a shorter list (common practice)."""


def chapters_txt(manuscript: Manuscript) -> str:
    """The text of chapters.txt: `0:00 Title` lines; empty where the recording is too short for chapters."""
    examination = manuscript.examination
    marks = playable(examination.procedure.chapters, examination.reading.speech.transcript.duration)
    return "".join(f"{clock(mark.start)} {printable(mark.title)}\n" for mark in marks)


def playable(chapters: tuple[Chapter, ...], duration: float) -> tuple[Chapter, ...]:
    """The chapters that players take: the first at 0:00, each long enough; none where fewer than three are left."""
    kept: list[Chapter] = []
    for chapter in sorted(chapters, key=lambda each: each.start):
        start = float(int(chapter.start)) if kept else 0.0
        if kept and start - kept[-1].start < SHORTEST:
            continue
        kept.append(Chapter(start, chapter.title))
    while kept and duration - kept[-1].start < SHORTEST:
        kept.pop()
    return tuple(kept) if len(kept) >= FEWEST else ()
