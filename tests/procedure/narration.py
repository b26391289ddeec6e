"""Narrations for tests: plain words become speech, "|" is a long pause, "/" a short one."""

from collections.abc import Sequence

from witnessmark.language.speech import Speech, read_speech
from witnessmark.language.vocabulary import terms
from witnessmark.procedure import Procedure, ValueAt, find_procedure
from witnessmark.reading.sightings import find_sightings
from witnessmark.specs.table import SpecTable
from witnessmark.transcript.model import Cue, Transcript, Word

PER_WORD = 0.3
LONG, SHORT = 1.4, 0.5


def speech_of(text: str, fmt: str = "SubRip") -> Speech:
    """Speech said at an even rate. fmt: name of the caption form."""
    words, time = [], 0.0
    for piece in text.split():
        if piece in "|/":
            time += LONG if piece == "|" else SHORT
            continue
        words.append(Word(piece, time, time + PER_WORD, 0))
        time += PER_WORD
    return read_speech(Transcript(fmt, (Cue(0.0, time, text),), tuple(words)))


def procedure_of(text: str, values: Sequence[ValueAt] = (), fmt: str = "SubRip") -> Procedure:
    """The procedure of a narration with no specification table."""
    speech = speech_of(text, fmt)
    said = {*speech.texts, *speech.lemmas}
    # only the terms that can be found at all: the whole vocabulary is slow to match anew for every sentence
    near = [term for term in terms() if any(said.issuperset(form.replace("-", " ").split()) for form in term.forms)]
    return find_procedure(speech, find_sightings(speech, SpecTable(()), near), values)


def value(
    speech: Speech, said: str, kind: str, shown: str, item: str | None, mention: str, quoted: bool = False
) -> ValueAt:
    """A value where its words stand first in a narration."""
    words = tuple(said.split())
    start = next(i for i in range(len(speech.texts)) if speech.texts[i : i + len(words)] == words)
    return ValueAt(start, start + len(words), kind, shown, item, mention, quoted)
