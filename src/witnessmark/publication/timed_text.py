"""Timed text as players take it: cues written as WebVTT or as SubRip.

WebVTT: W3C, "WebVTT: The Web Video Text Tracks Format", section 4. SubRip has no standard; its form is that of the
Matroska codec specification (cellar-codec/subtitles.md).
"""

import html
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from witnessmark.publication.escape import printable

_REFERENCE = re.compile(r"&(#?\w+;?)")
_TAG_OPENS = re.compile(r"<(?=[/A-Za-z0-9])")


@dataclass(frozen=True, slots=True)
class TextCue:
    """A text on the screen. start, end: whole milliseconds from the start of the recording. lines: as they are shown."""

    start: int
    end: int
    lines: tuple[str, ...]


def milliseconds(seconds: float) -> int:
    """A time in whole milliseconds, never before the start."""
    return round(max(0.0, seconds) * 1000)


def time_code(at: int, mark: str = ".") -> str:
    """Milliseconds as 00:04:07.900; mark: what parts the seconds from their fraction."""
    seconds, thousandths = divmod(at, 1000)
    minutes, second = divmod(seconds, 60)
    hours, minute = divmod(minutes, 60)
    return f"{hours:02d}:{minute:02d}:{second:02d}{mark}{thousandths:03d}"


def webvtt(cues: Iterable[TextCue]) -> str:
    """A WebVTT file; a valid one without cues where there are none."""
    blocks = [
        f"{time_code(cue.start)} --> {time_code(cue.end)}\n{text}"
        for cue in cues
        if (text := _lines(cue.lines, _escaped))
    ]
    return "\n\n".join(["WEBVTT", *blocks]) + "\n"


def subrip(cues: Iterable[TextCue]) -> str:
    """A SubRip file; an empty one where there are no cues.

    Players show SubRip as it stands, so that only what would be read as markup or as a time is written as a reference.
    """
    shown = [(cue, text) for cue in cues if (text := _lines(cue.lines, _harmless))]
    return "\n".join(
        f"{number}\n{time_code(cue.start, ',')} --> {time_code(cue.end, ',')}\n{text}\n"
        for number, (cue, text) in enumerate(shown, 1)
    )


def _lines(lines: Sequence[str], escaped: Callable[[str], str]) -> str:
    return "\n".join(escaped(line) for text in lines if (line := printable(text)))


def _escaped(line: str) -> str:
    return line.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _harmless(line: str) -> str:
    kept = _REFERENCE.sub(lambda found: found[0] if html.unescape(found[0]) == found[0] else f"&amp;{found[1]}", line)
    return _TAG_OPENS.sub("&lt;", kept).replace("-->", "--&gt;")
