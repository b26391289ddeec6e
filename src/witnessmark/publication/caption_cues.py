"""The captions of a recording written anew: each caption once, its times kept, the accepted changes made.

A caption of the file stays one caption with its own times, unless it cannot be read in its place: one too long is
parted between two words, at the second one's time; one too short to read stays longer where nothing follows, or is
joined with its neighbour.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from witnessmark.examination import Examination
from witnessmark.publication.caption_changes import Change, caption_changes
from witnessmark.publication.caption_layout import LONGEST, SHORTEST, Atom, best_break, joined, laid_out, lines_of
from witnessmark.publication.timed_text import TextCue, milliseconds
from witnessmark.transcript.model import Transcript
from witnessmark.transcript.words import spoken_words

PAUSE = 0.5
"""Seconds of silence after which a caption is taken off before the next comes."""


@dataclass(frozen=True, slots=True)
class _Block:
    """One caption to be. start, end: seconds. last: when its words end. first: of a caption of the file."""

    atoms: tuple[Atom, ...]
    start: float
    end: float
    first: bool = True

    @property
    def last(self) -> float:
        return max(atom.end for atom in self.atoms)


def corrected_cues(examination: Examination) -> tuple[TextCue, ...]:
    """The captions of a recording with everything that its creator accepted."""
    return caption_cues(examination.reading.speech.transcript, caption_changes(examination).made)


def caption_cues(transcript: Transcript, changes: Sequence[Change]) -> tuple[TextCue, ...]:
    """The captions with the changes made, in order of time."""
    blocks = [part for block in _blocks(transcript, changes) for part in _parted(block)]
    return tuple(
        TextCue(milliseconds(block.start), milliseconds(block.end), laid_out(block.atoms))
        for block in _timed(_joined_short(_apart(blocks)))
    )


def _blocks(transcript: Transcript, changes: Sequence[Change]) -> Iterator[_Block]:
    """The captions of the file; one that holds nothing but a sound stays as it is."""
    written = _written(transcript, changes)
    words: list[list[int]] = [[] for _ in transcript.cues]
    for index, word in enumerate(transcript.words):
        words[word.cue].append(index)
    for cue, here in zip(transcript.cues, words, strict=True):
        atoms = _atoms(transcript, cue.text, here, written)
        if not here:
            atoms = [Atom(" ".join(cue.text.split()), cue.start, cue.start, 0)]
        if atoms:
            yield _Block(tuple(atoms), cue.start, max(cue.end, *(atom.end for atom in atoms)))


def _written(transcript: Transcript, changes: Sequence[Change]) -> dict[int, tuple[str, int] | None]:
    """What stands at each changed word: (text, words it holds); None where the words before it hold its text."""
    written: dict[int, tuple[str, int] | None] = {}
    for change in changes:
        texts = change.written.split()
        places = range(change.first, change.end)
        if not change.whole and len(texts) == len(places):
            written |= {i: (text, 1) for i, text in zip(places, texts, strict=True)}
            continue
        same_cue = transcript.words[change.first].cue == transcript.words[change.end - 1].cue
        written |= dict.fromkeys(places)
        written[change.first] = (change.written, len(places) if same_cue else 1)
    return written


def _atoms(
    transcript: Transcript, text: str, here: Sequence[int], written: dict[int, tuple[str, int] | None]
) -> list[Atom]:
    """A caption's words as they are written, each with the sounds and marks that stand before it."""
    atoms: list[Atom] = []
    before = ""
    for index, sound in zip(here, _sounds(text, len(here)), strict=False):
        before = f"{before} {sound}".strip()
        replaced = written.get(index, (transcript.words[index].text, 1))
        if replaced is None:
            continue
        shown, count = replaced
        word, last = transcript.words[index], transcript.words[index + max(1, count) - 1]
        atoms.append(Atom(f"{before} {shown}".strip(), word.start, last.end, count))
        before = ""
    after = f"{before} {_sounds(text, len(here))[-1]}".strip()
    if after and atoms:
        atoms[-1] = replace(atoms[-1], text=f"{atoms[-1].text} {after}")
    return atoms


def _sounds(text: str, count: int) -> list[str]:
    """What of a caption is not spoken: before each of its words, and behind the last."""
    spans = spoken_words(text)
    if len(spans) != count:
        return [""] * (count + 1)
    ends = [0, *(end for _, end in spans)]
    begins = [*(begin for begin, _ in spans), len(text)]
    return [_mark(text[end:begin]) for end, begin in zip(ends, begins, strict=True)]


def _mark(sound: str) -> str:
    """A sound note or the mark of a speaker; the dash at a line's begin, which no other place can have, as chevrons."""
    return " ".join(">>" if part in ("-", "–", "—") else part for part in sound.split())


def _parted(block: _Block) -> Iterator[_Block]:
    """A caption as captions that can be read: short enough, and not on the screen for too long."""
    too_long = block.last - block.atoms[0].start > LONGEST or lines_of(block.atoms) is None
    at = best_break(block.atoms) if too_long else None
    if at is None:
        yield block
        return
    former, latter = block.atoms[:at], block.atoms[at:]
    begin, spoken = latter[0].start, max(atom.end for atom in former)
    yield from _parted(_Block(former, block.start, begin if begin - spoken <= PAUSE else spoken, block.first))
    yield from _parted(_Block(latter, begin, block.end, False))


def _apart(blocks: Sequence[_Block]) -> list[_Block]:
    """Captions in order of time; of two that begin at once, the second begins with its first word."""
    ordered = sorted(blocks, key=lambda block: block.start)
    moved = ordered[:1]
    for before, block in pairwise(ordered):
        start = max(block.start, block.atoms[0].start) if block.start <= before.start else block.start
        moved.append(replace(block, start=start))
    return sorted(moved, key=lambda block: block.start)


def _joined_short(blocks: Sequence[_Block]) -> list[_Block]:
    """Captions that would be gone before they are read, put together with a neighbour where both fit."""
    done: list[_Block] = []
    for block, following in zip(blocks, [*blocks[1:], None], strict=True):
        if done:
            whole = _Block(
                (*done[-1].atoms, *block.atoms), done[-1].start, max(done[-1].end, block.end), done[-1].first
            )
            hurried = block.start - done[-1].start < SHORTEST
            hurried |= following is not None and following.start - block.start < SHORTEST
            if hurried and block.start - done[-1].last <= PAUSE and _readable(whole, done[-1], block):
                done[-1] = whole
                continue
        done.append(block)
    return done


def _readable(whole: _Block, one: _Block, other: _Block) -> bool:
    """Whether two captions are one that can be read, of the same words: marks of both could make up a sound note."""
    text, parts = joined(whole.atoms), (joined(one.atoms), joined(other.atoms))
    spoken = [_spoken(part) for part in parts]
    return (
        lines_of(whole.atoms) is not None
        and whole.last - whole.start <= LONGEST
        and _spoken(text) == [*spoken[0], *spoken[1]]
    )


def _spoken(text: str) -> list[str]:
    return [text[begin:end] for begin, end in spoken_words(text)]


def _timed(blocks: Sequence[_Block]) -> Iterator[_Block]:
    """Each caption gone when the next comes, after seven seconds at most and, where there is room, one at least."""
    starts = [block.start for block in blocks]
    for i, block in enumerate(blocks):
        following = next((start for start in starts[i + 1 :] if start > block.start), None)
        end = min(block.end, block.start + LONGEST)
        least = block.start + SHORTEST
        if following is not None:
            end, least = min(end, following), min(least, following)
        yield replace(block, end=max(end, least, block.last, block.start + 0.001))
