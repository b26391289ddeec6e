"""WebVTT, read by the algorithm of the W3C standard ("WebVTT: The Web Video Text Tracks Format", sections 6.1 to 6.4).

The reader is our own: the standard's algorithm is short and says what becomes of every malformed file, so that what is
read here is what a player shows. A general-purpose reader would have to be corrected in the very places where real
files go wrong, and gives no line numbers for what it leaves out. Character references are HTML's, as the standard says.
Where words stand on the screen is no matter to what was said: settings, regions and style sheets are passed over.
"""

import re
from dataclasses import dataclass

from witnessmark.transcript.base import Captions, Piece, TimedText, seconds, shortened, unescaped
from witnessmark.transcript.model import ReadingNote

NAME = "WebVTT"

_SIGNATURE = re.compile(r"WEBVTT(?:[ \t\n]|\Z)")
_TIME = r"(?:([0-9]{1,9}):)?([0-5][0-9]):([0-5][0-9])\.([0-9]{3})(?![0-9])"
_TIMESTAMP = re.compile(_TIME)
_TIMINGS = re.compile(rf"[ \t\f]*{_TIME}[ \t\f]*-->[ \t\f]*{_TIME}")
_TAG = re.compile(r"<([^>]*)(>|\Z)")
_BLOCK_WORD = re.compile(r"(?:STYLE|REGION)[ \t\f]*")
_COMMENT = re.compile(r"NOTE(?:[ \t\n]|\Z)")


@dataclass(slots=True)
class Cue:
    """One block with times. line: 1-based, of the times. text: cue text, markup and all."""

    identifier: str
    start: float
    end: float
    line: int
    text: str = ""


def recognises(text: str) -> bool:
    """Whether text begins with the signature WEBVTT, as the standard asks."""
    return _SIGNATURE.match(text) is not None


def read(text: str) -> Captions:
    """The captions of a WebVTT file; text was recognised."""
    cues, notes = read_cues(text)
    timed = tuple(TimedText(cue.start, cue.end, cue_text_pieces(cue, notes), cue.line) for cue in cues)
    return Captions(timed, tuple(notes))


def read_cues(text: str) -> tuple[list[Cue], list[ReadingNote]]:
    """All cues in file order, and what the standard makes a player leave out."""
    reader = _BlockReader(text.split("\n"))
    cues = []
    if reader.more and reader.lines[reader.at]:
        reader.block(in_header=True)
    while reader.more:
        if not reader.lines[reader.at]:
            reader.at += 1
        elif cue := reader.block():
            cues.append(cue)
    return cues, reader.notes


class _BlockReader:
    """The standard's "collect a WebVTT block": at is the index of the next line; line 0 is the signature."""

    def __init__(self, lines: list[str]) -> None:
        self.lines = lines
        self.at = 1
        self.notes: list[ReadingNote] = []

    @property
    def more(self) -> bool:
        return self.at < len(self.lines)

    def block(self, in_header: bool = False) -> Cue | None:
        """Read the lines up to an empty line or another cue's times. Gives the block's cue, if it is one."""
        first = self.at
        cue: Cue | None = None
        malformed: int | None = None
        kept: list[str] = []
        while self.more and (line := self.lines[self.at]):
            count = self.at - first + 1
            if "-->" in line:
                if in_header or count > 2 or cue or malformed:
                    break
                if cue := self._timings(line, "\n".join(kept)):
                    kept = []
                else:
                    malformed = self.at + 1
            else:
                if not in_header and count == 2 and not cue and _BLOCK_WORD.fullmatch(kept[0] if kept else ""):
                    kept = []
                kept.append(line)
            self.at += 1
        if cue:
            cue.text = "\n".join(kept)
        elif not in_header:
            self._note_left_out(first, malformed, kept)
        return cue

    def _timings(self, line: str, identifier: str) -> Cue | None:
        found = _TIMINGS.match(line)
        if not found:
            return None
        parts = found.groups()
        return Cue(identifier, seconds(*parts[:4]), seconds(*parts[4:]), self.at + 1)

    def _note_left_out(self, first: int, malformed: int | None, kept: list[str]) -> None:
        opening = self.lines[first]
        if malformed:
            said = shortened(self.lines[malformed - 1])
            lost = shortened(" ".join(kept))
            left_out = f"left out: {lost!r}" if kept else "it is left out"
            problem = f"the time line {said!r} does not follow WebVTT, players show nothing of it; {left_out}"
            self.notes.append(ReadingNote(malformed, problem, lost))
        elif not _COMMENT.match(opening) and not _BLOCK_WORD.fullmatch(opening):
            text = shortened(" ".join(kept))
            problem = f"text outside a cue, players do not show it; left out: {text!r}"
            self.notes.append(ReadingNote(first + 1, problem, text))


def cue_text_pieces(cue: Cue, notes: list[ReadingNote]) -> tuple[Piece, ...]:
    """The visible text of a cue, parted where a tag gives a time. Adds a note for each < that swallows words."""
    pieces: list[Piece] = []
    at, line, counted = 0, cue.line + 1, 0
    start: float | None = None
    kept: list[str] = []
    for tag in _TAG.finditer(cue.text):
        kept.append(unescaped(cue.text[at : tag.start()]))
        at = tag.end()
        inside = tag[1]
        if time := _TIMESTAMP.fullmatch(inside):
            pieces.append(Piece("".join(kept), start))
            start, kept = seconds(*time.groups()), []
        elif not tag[2] or inside[:1].isdigit() or inside[:1].isspace():
            line, counted = line + cue.text.count("\n", counted, tag.start()), tag.start()
            lost = shortened(tag[0])
            problem = f"players take this for markup and do not show it; left out: {lost!r}"
            notes.append(ReadingNote(line, problem, lost))
    kept.append(unescaped(cue.text[at:]))
    pieces.append(Piece("".join(kept), start))
    return tuple(piece for piece in pieces if piece.text)
