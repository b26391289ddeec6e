"""From the captions of any format to a Transcript: repeats out, words found, each with its time."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from witnessmark.transcript.base import Captions, Piece, TimedText
from witnessmark.transcript.model import Cue, ReadingNote, Transcript, Word
from witnessmark.transcript.rollup import once_each
from witnessmark.transcript.syllables import syllables
from witnessmark.transcript.words import spoken_words, visible

LONGEST_SYLLABLE = 0.6
"""Seconds a syllable may take; beyond it the speaker was silent. *Common practice*: slow speech has three a second."""

SHORTEST_SYLLABLE = 0.1
"""Seconds a syllable takes at least. *Common practice*: fast speech has about eight syllables a second."""

USUAL_SYLLABLE = 0.28
"""Seconds a syllable takes where the file tells nothing: 155 words a minute of 1.4 syllables. *Common practice*."""


@dataclass(frozen=True, slots=True)
class _Spoken:
    """One spoken word. given, until: seconds, where the captions time its begin or the end of its stretch."""

    text: str
    weight: int
    given: float | None
    until: float | None


@dataclass(slots=True)
class _Said:
    """A caption that stays, with its words; end None where it is open. limit: when its words must have ended."""

    cue: TimedText
    text: str
    words: list[_Spoken]
    end: float | None
    limit: float = 0.0

    @property
    def weight(self) -> int:
        return sum(word.weight for word in self.words)

    @property
    def times_words(self) -> bool:
        """Whether the captions themselves time some of the words."""
        return any(word.given is not None for word in self.words)


def assemble(name: str, captions: Captions) -> Transcript:
    """The transcript of a file's captions; name is the format's."""
    notes = [*captions.notes, *_notes_on_times(captions.cues)]
    in_order = sorted(captions.cues, key=lambda cue: cue.start)
    said = [_said(cue) for cue in once_each([_visible(cue) for cue in in_order])]
    said = [one for one in said if one.text]
    _set_limits(said)
    cues: list[Cue] = []
    words: list[Word] = []
    for group in _spoken_together(said):
        spoken = [word for one in group for word in one.words]
        times = iter(_times(spoken, group[0].cue.start, max(one.limit for one in group)))
        for one in group:
            of_cue = [Word(word.text, *next(times), len(cues)) for word in one.words]
            last = of_cue[-1].end if of_cue else one.limit
            cues.append(Cue(one.cue.start, one.end if one.end is not None else max(one.limit, last), one.text))
            words.extend(of_cue)
    return Transcript(name, tuple(cues), tuple(words), tuple(sorted(notes, key=lambda note: note.line)))


def _notes_on_times(cues: Sequence[TimedText]) -> Iterable[ReadingNote]:
    latest = 0.0
    for cue in cues:
        if cue.start < latest:
            yield ReadingNote(cue.line, "this caption starts before one above it; captions were put in order of time")
        if cue.end is not None and cue.end <= cue.start:
            yield ReadingNote(cue.line, "this caption ends before or as it starts; its words are timed from its start")
        latest = max(latest, cue.start)


def _visible(cue: TimedText) -> TimedText:
    pieces = tuple(Piece(visible(piece.text), piece.start, piece.end) for piece in cue.pieces)
    return TimedText(cue.start, cue.end, pieces, cue.line)


def _said(cue: TimedText) -> _Said:
    text = cue.text
    end = cue.end if cue.end is not None and cue.end > cue.start else None
    lines = (" ".join(line.split()) for line in text.split("\n"))
    return _Said(cue, "\n".join(line for line in lines if line), list(_spoken(cue, text)), end)


def _spoken(cue: TimedText, text: str) -> Iterable[_Spoken]:
    """The cue's words; a piece's own time is that of the word that it begins with."""
    pieces = iter(cue.pieces)
    piece, piece_begin, piece_end, first = Piece(""), 0, 0, False
    for begin, end in spoken_words(text):
        while begin >= piece_end:
            piece = next(pieces)
            piece_begin, piece_end, first = piece_end, piece_end + len(piece.text), True
        first = first and not text[piece_begin:begin].strip()
        word = text[begin:end]
        yield _Spoken(word, syllables(word), piece.start if first else None, piece.end)
        first = False


def _set_limits(said: Sequence[_Said]) -> None:
    """Each caption's words end with it, or before that where the next one with words begins.

    A caption often stays on the screen while the next is spoken.
    """
    following: float | None = None
    next_start: list[float | None] = [None] * len(said)
    for index in range(len(said) - 1, -1, -1):
        next_start[index] = (
            following if following is None or following > said[index].cue.start else next_start[index + 1]
        )
        if said[index].words:
            following = said[index].cue.start
    rates = []
    open_ended = []
    for one, after in zip(said, next_start, strict=True):
        start = one.cue.start
        room_before_next = after is not None and after - start >= SHORTEST_SYLLABLE * one.weight
        if one.end is None and after is None:
            open_ended.append(one)
            continue
        if after is not None and (one.end is None or (after < one.end and room_before_next and not one.times_words)):
            one.limit = after
        else:
            one.limit = one.end or start
        if one.weight:
            rates.append(min(LONGEST_SYLLABLE, (one.limit - start) / one.weight))
    rate = median(rates) if rates else USUAL_SYLLABLE
    for one in open_ended:
        one.limit = one.cue.start + rate * one.weight


def _spoken_together(said: Sequence[_Said]) -> Iterable[list[_Said]]:
    """Groups of captions that start at once, as whole-second stamps do: they share their time one after the other.

    A caption that times its words stands alone.
    """
    group: list[_Said] = []
    for one in said:
        timed = one.times_words
        if group and (timed or one.cue.start > group[0].cue.start):
            yield group
            group = []
        group.append(one)
        if timed:
            yield group
            group = []
    if group:
        yield group


def _times(words: Sequence[_Spoken], start: float, limit: float) -> list[tuple[float, float]]:
    """Begin and end of each word in seconds, as given, else by syllables between two given times.

    No word is longer than speech can be.
    """
    times: list[tuple[float, float]] = []
    first = 0
    while first < len(words):
        given = words[first].given
        begin = start if first == 0 and given is None else max(start, given or 0.0)
        after = first + 1
        while after < len(words) and not _starts_stretch(words[after], begin, limit):
            after += 1
        until = words[after].given if after < len(words) else limit
        own_end = words[first].until
        if own_end is not None and begin < own_end:
            until = own_end if until is None else min(until, own_end)
        times.extend(_shared(words[first:after], begin, until if until is not None else limit))
        first = after
    return times


def _starts_stretch(word: _Spoken, begin: float, limit: float) -> bool:
    return word.given is not None and begin < word.given < limit


def _shared(words: Sequence[_Spoken], begin: float, end: float) -> list[tuple[float, float]]:
    weight = sum(word.weight for word in words)
    syllable = min(LONGEST_SYLLABLE, max(0.0, end - begin) / weight)
    bounds = [begin]
    before = 0
    for word in words:
        before += word.weight
        bounds.append(begin + syllable * before)
    if syllable < LONGEST_SYLLABLE:
        bounds[-1] = max(begin, end)
    return [(round(one, 3), round(other, 3)) for one, other in pairwise(bounds)]
