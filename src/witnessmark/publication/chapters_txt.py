"""chapters.txt: chapter marks for the description of the upload."""

from collections.abc import Iterator

from witnessmark.proof.wording import clock
from witnessmark.publication.chapters import playable
from witnessmark.publication.escape import printable
from witnessmark.publication.manuscript import Manuscript


def chapters_txt(manuscript: Manuscript) -> str:
    """The text of chapters.txt: `0:00 Title` lines; empty where the recording is too short for chapters."""
    return "".join(f"{line}\n" for line in chapter_lines(manuscript))


def chapter_lines(manuscript: Manuscript) -> Iterator[str]:
    """The lines, first one at 0:00."""
    examination = manuscript.examination
    for mark in playable(examination.procedure.chapters, examination.reading.speech.transcript.duration):
        yield f"{clock(mark.start)} {printable(mark.title)}"
