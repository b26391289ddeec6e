"""Roll-up captions: each line is shown again above the next one. Here each line is kept once, where it was said.

Automatic captions in WebVTT show a new line word by word under the line before it, then that line alone for a moment;
converted to another format they
lose the word times but not the repeats. Captions that do not roll are left as they are, so that what a speaker says
twice stays said twice.
"""

from collections.abc import Sequence
from itertools import pairwise

from witnessmark.transcript.base import Piece, TimedText

MOMENT = 0.1
"""Seconds in which nothing can be said: a caption so short, or a gap so short between two, is made by a machine."""

Line = tuple[Piece, ...]


def once_each(cues: Sequence[TimedText]) -> list[TimedText]:
    """The captions in the same order, without the lines that only repeat the caption before.

    A caption left without text is left out.
    """
    shown = [_Shown(cue) for cue in cues]
    overlaps: list[list[int]] = [[] for _ in shown[:1]]
    overlaps += [_overlaps(*pair) for pair in pairwise(shown)]
    rolling = _rolls(shown, overlaps)
    kept: list[TimedText] = []
    for index, (cue, overlap) in enumerate(zip(shown, overlaps, strict=True)):
        repeated = _repeated(shown[index - 1], cue, overlap, rolling) if overlap else 0
        if not repeated:
            kept.append(cue.cue)
        elif new := cue.lines[repeated:]:
            kept.append(TimedText(cue.cue.start, cue.cue.end, _rejoined(new), cue.cue.line))
    return kept


class _Shown:
    """A caption by its lines: as pieces, as plain texts, and how many come before the first with word times."""

    __slots__ = ("cue", "lines", "texts", "untimed")

    def __init__(self, cue: TimedText) -> None:
        self.cue = cue
        self.lines = _lines(cue)
        self.texts = [_plain(line) for line in self.lines]
        timed = (count for count, line in enumerate(self.lines) if any(piece.start is not None for piece in line))
        self.untimed = next(timed, len(self.lines))


def _overlaps(before: _Shown, cue: _Shown) -> list[int]:
    """All numbers of lines, largest first, with which the caption before ends and this one begins.

    A line with word times is new.
    """
    most = min(len(before.texts), cue.untimed, 8)
    return [count for count in range(most, 0, -1) if before.texts[-count:] == cue.texts[:count]]


def _rolls(shown: Sequence[_Shown], overlaps: Sequence[Sequence[int]]) -> bool:
    """Whether most captions of several lines begin with the end of the one before and then bring something new."""
    chances = [
        bool(overlap) and overlap[-1] < len(cue.texts)
        for cue, overlap in zip(shown[1:], overlaps[1:], strict=True)
        if len(cue.texts) > 1
    ]
    timed = any(cue.untimed < len(cue.texts) for cue in shown)
    return sum(chances) >= (1 if timed else 2) and 2 * sum(chances) >= len(chances)


def _repeated(before: _Shown, cue: _Shown, overlaps: Sequence[int], rolling: bool) -> int:
    """How many of the cue's first lines stand there only because the caption before showed them last."""
    start, end = cue.cue.start, cue.cue.end
    whole = len(cue.texts) if len(cue.texts) in overlaps else 0
    if whole and end is not None and 0 < end - start <= MOMENT:
        return whole
    if not rolling:
        return 0
    if partial := next((count for count in overlaps if count < len(cue.texts)), 0):
        return partial
    follows_at_once = before.cue.end is not None and abs(start - before.cue.end) <= MOMENT
    return whole if follows_at_once else 0


def _lines(cue: TimedText) -> list[Line]:
    """The cue's lines that are not blank, each as pieces without line breaks."""
    lines: list[list[Piece]] = [[]]
    for piece in cue.pieces:
        first, *others = piece.text.split("\n")
        lines[-1].append(Piece(first, piece.start, piece.end))
        lines.extend([Piece(text, piece.start, piece.end)] for text in others)
    return [tuple(line) for line in lines if _plain(line)]


def _plain(line: Sequence[Piece]) -> str:
    return " ".join("".join(piece.text for piece in line).split())


def _rejoined(lines: Sequence[Line]) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    for line in lines:
        if pieces:
            pieces.append(Piece("\n", pieces[-1].start, pieces[-1].end))
        pieces.extend(line)
    return tuple(pieces)
