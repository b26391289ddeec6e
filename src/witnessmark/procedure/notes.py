"""What a speaker tells of the machine that is no step, in their own words (data/procedure/notes.toml):
what showed that the job is needed, its history, what things cost, what they will watch.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from witnessmark.data import read_toml
from witnessmark.language.tokens import PUNCTUATION, SENTENCE_END
from witnessmark.language.utterances import is_punctuated
from witnessmark.procedure.lexicon import phrase_table, word_set
from witnessmark.procedure.model import Note, NoteKind
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.triggers import Index, Pattern, compile_pattern, occurrences, spoken_words

INTRODUCTION = 0.15  # share of the recording in which the machine is told of
TOLD_OF_COSTS, ENDING = 0.2, 0.88  # shares before and after which costs are told; between the two, prices are asides
BACK, ON = 14, 12  # tokens quoted before what gives a note away, and after
SENTENCE = 30  # tokens of a sentence that is quoted whole
LEAST = 4  # words of a quotation
TOGETHER = 3  # tokens between two quotations that are one
HARMLESS = frozenset({"distance", "duration", "interval"})
"""Kinds of values that may be quoted. Any other may be a slip, and a guide prints it from the table only."""


@dataclass(frozen=True, slots=True)
class _Book:
    """kinds: patterns of each kind. long: of symptoms told anywhere. none: of what is no note."""

    kinds: Mapping[NoteKind, tuple[Pattern, ...]]
    long: tuple[Pattern, ...]
    none: tuple[Pattern, ...]
    index: Index


@cache
def _book() -> _Book:
    data = read_toml("procedure/notes.toml")
    names: tuple[NoteKind, ...] = ("symptom", "history", "cost", "watch")
    kinds = {name: tuple(map(compile_pattern, data[name]["when"])) for name in names}
    long = tuple(map(compile_pattern, data["symptom"]["long"]))
    none = tuple(map(compile_pattern, data["not_notes"]["when"]))
    every = [pattern for found in (*kinds.values(), long, none) for pattern in found]
    return _Book(kinds, long, none, Index((atom for pattern in every for atom in pattern.atoms), data["groups"]))


def find_notes(spoken: Spoken, lists: Sequence[tuple[int, int]]) -> tuple[Note, ...]:
    """Every note, in order; what is said twice in a row is one. lists: where tools are listed, which ends the introduction."""
    found: list[Note] = []
    for start, end, kind in sorted(_places(spoken, lists)):
        if found and found[-1].kind == kind and start < found[-1].end_token:
            continue
        first, stop = _clause(spoken, start, end)
        last = found[-1] if found else None
        if last is not None and last.kind == kind and first <= last.end_token + TOGETHER:
            found[-1] = _note(spoken, last.start_token, max(stop, last.end_token), kind)
        elif (last is None or first >= last.end_token) and stop - first >= LEAST:
            found.append(_note(spoken, first, stop, kind))
    return tuple(note for note in found if not _told_from_the_table(spoken, note))


def _places(spoken: Spoken, lists: Sequence[tuple[int, int]]) -> set[tuple[int, int, NoteKind]]:
    """Where patterns hold, as tokens start..end (exclusive)."""
    book = _book()
    lemmas, tokens = spoken_words(spoken.speech.lemmas)
    spans = book.index.spans(lemmas)
    size = len(spoken.texts)
    introduced = min([size * INTRODUCTION, *(first for first, _ in lists if first < size / 4)])
    listed = {i for first, stop in lists for i in range(first, stop)}

    def priced(at: int) -> bool:
        return (at < size * TOLD_OF_COSTS or at > size * ENDING) and at not in listed

    none = [span for pattern in book.none for span in occurrences(pattern, spans)]
    rows = [(pattern, kind) for kind, patterns in book.kinds.items() for pattern in patterns]
    rows += [(pattern, "symptom") for pattern in book.long]
    found: set[tuple[int, int, NoteKind]] = set()
    for pattern, kind in rows:
        for start, end in occurrences(pattern, spans):
            at = tokens[start]
            anywhere = kind == "watch" or pattern in book.long or (kind == "cost" and priced(at))
            barred = any(first < end + 1 and start < last + 3 for first, last in none)
            if (anywhere or at < introduced) and not barred:
                found.add((at, tokens[end - 1] + 1, kind))
    return {each for each in found if SENTENCE_END.isdisjoint(spoken.texts[each[0] : each[1]])}


def _clause(spoken: Spoken, start: int, end: int) -> tuple[int, int]:
    """The clause around tokens start..end: from its subject to where the next one begins."""
    utterance = spoken.utterances[spoken.utterance_of[start]]
    if is_punctuated(spoken.speech) and utterance.start <= start < end <= utterance.end <= utterance.start + SENTENCE:
        return utterance.start, utterance.end
    low = max(utterance.start, start - BACK)
    first = next((i for i in range(start, low, -1) if _begins(spoken, i)), low)
    high = min(len(spoken.texts), max(end, min(utterance.end, end + ON)))
    stop = next((i for i in range(end, high) if _begins(spoken, i) or _joins(spoken, i)), high)
    return first, stop


def _begins(spoken: Spoken, index: int) -> bool:
    """Whether a clause begins at a token: behind a joining word or a full stop, or with a subject and its verb."""
    before = spoken.text(index - 1)
    if spoken.stops_before(index) or _joins(spoken, index - 1):
        return True
    subject = spoken.text(index) in ("it", "she", "he", "they", "there", "i", "we", "you", "that")
    return subject and before not in _clauses("holds") and spoken.text(index + 1) in _clauses("verbs")


def _joins(spoken: Spoken, index: int) -> bool:
    """Whether a word joins two clauses: "so long" and "axle and hub" join none."""
    text, follows = spoken.text(index), spoken.text(index + 1)
    if text == "and":
        leads = word_set("determiners") | word_set("pronouns") | word_set("hesitations")
        return follows in leads | {"i", "we", "you", "there", "then", "so"}
    return text in _clauses("joins") and not (text == "so" and follows in _clauses("degrees"))


@cache
def _clauses(name: str) -> frozenset[str]:
    return frozenset(phrase_table("notes", "clauses")[name])


def _note(spoken: Spoken, first: int, stop: int, kind: NoteKind) -> Note:
    loose = PUNCTUATION | _clauses("joins")
    while first < stop - 1 and spoken.texts[first] in loose | {"and"}:
        first += 1
    while stop > first + 1 and spoken.texts[stop - 1] in loose | _clauses("dangling"):
        stop -= 1
    start, end = spoken.speech.span_times(first, stop)
    return Note(kind, start, end, first, stop, _quoted(spoken, first, stop))


def _quoted(spoken: Spoken, first: int, stop: int) -> str:
    """The speaker's words, misheard ones as they were meant, without fillers."""
    words, tokens = spoken.speech.transcript.words, spoken.speech.tokens
    begun = {each.start: each for each in spoken.speech.corrections}
    at, last, said = tokens[first].word, tokens[stop - 1].word, []
    while at <= last:
        mended = begun.get(at)
        said.append(mended.meant if mended else words[at].text)
        at = max(at + 1, mended.end) if mended else at + 1
    return " ".join(word for word in said if word.strip(",.").casefold() not in word_set("hesitations")).rstrip(",.;:")


def _told_from_the_table(spoken: Spoken, note: Note) -> bool:
    """Whether a value stands in a note that a guide prints from the table only."""
    values = (spoken.value_over.get(i) for i in range(note.start_token, note.end_token))
    return any(value is not None and value.kind not in HARMLESS for value in values)
