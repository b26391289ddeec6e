"""chapters.ffmeta: title and chapters as FFmpeg takes them to put them into a video file.

ffmpeg -i video.mp4 -i chapters.ffmeta -map_metadata 1 -codec copy video_with_chapters.mp4
"""

import re
from collections.abc import Iterator

from witnessmark.publication.chapters import chapter_spans
from witnessmark.publication.escape import printable
from witnessmark.publication.manuscript import Manuscript

_SPECIAL = re.compile(r"([=;#\\\n])")


def chapters_ffmeta(manuscript: Manuscript) -> str:
    """The text of chapters.ffmeta, by the form of "Metadata" in the documentation of FFmpeg's formats."""
    return "".join(f"{line}\n" for line in _lines(manuscript))


def _lines(manuscript: Manuscript) -> Iterator[str]:
    yield ";FFMETADATA1"
    yield f"title={escaped(printable(manuscript.examination.project.title))}"
    for span in chapter_spans(manuscript):
        yield from ("[CHAPTER]", "TIMEBASE=1/1000", f"START={span.start}", f"END={span.end}")
        yield f"title={escaped(span.title)}"


def escaped(text: str) -> str:
    r"""A value in which `=`, `;`, `#`, `\` and a line end stand for themselves.

    >>> escaped("a=b; #1")
    'a\\=b\\; \\#1'
    """
    return _SPECIAL.sub(r"\\\1", text)
