"""What a speaker promises to viewers: a link, a picture, a list, another video (data/promises.toml)."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass
from functools import cache
from typing import Literal

from witnessmark.data import read_toml
from witnessmark.language.speech import Speech, breaks_after, is_word
from witnessmark.language.vocabulary import key_of
from witnessmark.procedure.triggers import SKIPPED, Index, Pattern, Spans, compile_pattern, occurrences, spoken_words

Kind = Literal["link", "follow-up", "picture", "list"]

KINDS: tuple[Kind, ...] = ("picture", "list", "link", "follow-up")
SAME_PROMISE = 24
CLOSING = 0.88  # share of the recording after which it comes to its end
LONGEST = 16
SPOKEN_OF_BEFORE = 30
TALKED_OF = 10
JOINING = frozenset(
    [
        "to",
        "of",
        "for",
        "on",
        "about",
        "in",
        "with",
        "and",
        "at",
        "from",
        "up",
        "it",
        "i",
        "'ll",
        "we",
        "do",
        "is",
        "are",
        "'s",
    ]
)
TRAILING = frozenset(
    ["and", "i", "'ll", "we", "in", "so", "the", "a", "to", "of", "down", "right", "up", "is", "are", "'s"]
)


@dataclass(frozen=True, slots=True)
class Owed:
    """One promise. start, end: seconds. said: the captions' words. about: what was promised, in the speaker's words.

    settled: the link of repair.toml that answers it, None where none does.
    """

    kind: Kind
    start: float
    end: float
    said: str
    about: str
    settled: str | None


@dataclass(frozen=True, slots=True)
class _Book:
    """kinds: patterns of each kind. closing: patterns of a follow-up in the last words. none: patterns of what is no promise.

    begins: words that begin a promise of its own. ends: patterns of what ends one. nouns: of what is promised, by kind.
    """

    kinds: Mapping[Kind, tuple[Pattern, ...]]
    closing: tuple[Pattern, ...]
    none: tuple[Pattern, ...]
    begins: frozenset[str]
    ends: tuple[Pattern, ...]
    nouns: Mapping[str, tuple[Pattern, ...]]
    index: Index


@cache
def _book() -> _Book:
    data = read_toml("promises.toml")
    kinds = {kind: _patterns(data[kind]["when"]) for kind in KINDS}
    none, ends = (_patterns(data[name]["when"]) for name in ("not_promises", "ends"))
    closing = _patterns(data["follow-up"]["closing"])
    nouns = {kind: _patterns(texts) for kind, texts in data["nouns"].items()}
    every = [pattern for found in (*kinds.values(), closing, none, ends, *nouns.values()) for pattern in found]
    index = Index((atom for pattern in every for atom in pattern.atoms), data["groups"])
    return _Book(kinds, closing, none, frozenset(data["begins"]["words"]), ends, nouns, index)


def _patterns(texts: Sequence[str]) -> tuple[Pattern, ...]:
    return tuple(compile_pattern(text) for text in texts)


@dataclass(frozen=True)
class _Heard:
    """A recording as the patterns see it. tokens: the token of each of their words. ends, nouns: where the words stand."""

    speech: Speech
    tokens: tuple[int, ...]
    ends: tuple[int, ...]
    nouns: Mapping[str, tuple[int, ...]]

    def token(self, place: int) -> int:
        """The token of a word, or the end of the recording."""
        return self.tokens[place] if place < len(self.tokens) else len(self.speech.tokens)


def find_promises(speech: Speech, links: Sequence[tuple[str, str]]) -> tuple[Owed, ...]:
    """Every promise once, in order. links: name and address of each entry of `[links]` in repair.toml."""
    book = _book()
    lemmas, tokens = spoken_words(speech.lemmas)
    spans = book.index.spans(lemmas)
    nouns = {kind: _ends(patterns, spans) for kind, patterns in book.nouns.items()}
    heard = _Heard(speech, tokens, _starts(book.ends, spans), nouns)
    return tuple(_owed(kind, start, end, heard, links) for start, end, kind in _promised(lemmas, spans))


def _promised(lemmas: Sequence[str], spans: Spans) -> list[tuple[int, int, Kind]]:
    """Where promises stand, as words start..end (exclusive): each once, and nothing that is none."""
    book = _book()
    found = {
        (start, end, kind)
        for kind, patterns in book.kinds.items()
        for pattern in patterns
        for start, end in occurrences(pattern, spans)
    }
    found |= {
        (start, end, "follow-up")
        for pattern in book.closing
        for start, end in occurrences(pattern, spans)
        if start >= len(lemmas) * CLOSING
    }
    none = [span for pattern in book.none for span in occurrences(pattern, spans)]
    order = {kind: place for place, kind in enumerate(KINDS)}
    promised: list[tuple[int, int, Kind]] = []
    for start, end, kind in sorted(found, key=lambda seen: (seen[0], order[seen[2]], -seen[1])):
        again = promised and not _anew(promised[-1], start, kind, lemmas, book.begins)
        if not again and not any(first < end + 2 and start < last for first, last in none):
            promised.append((start, end, kind))
    return promised


def _anew(last: tuple[int, int, Kind], start: int, kind: Kind, lemmas: Sequence[str], begins: Set[str]) -> bool:
    """Whether words that begin at `start` promise something else than the last promise did."""
    if start - last[0] >= SAME_PROMISE:
        return True
    return kind != last[2] and start >= last[1] and lemmas[start] in begins


def _starts(patterns: Sequence[Pattern], spans: Spans) -> tuple[int, ...]:
    return tuple(sorted({start for pattern in patterns for start, _ in occurrences(pattern, spans)}))


def _ends(patterns: Sequence[Pattern], spans: Spans) -> tuple[int, ...]:
    return tuple(sorted({end for pattern in patterns for _, end in occurrences(pattern, spans)}))


def _owed(kind: Kind, start: int, end: int, heard: _Heard, links: Sequence[tuple[str, str]]) -> Owed:
    speech = heard.speech
    first, stop = heard.token(start), _stop(heard, end)
    begin, finish = speech.span_times(first, stop)
    return Owed(
        kind,
        begin,
        finish,
        speech.said(first, stop),
        _about(kind, start, end, heard),
        _settled(first, stop, speech, links),
    )


def _stop(heard: _Heard, place: int) -> int:
    """The token at which a stretch that reaches a word ends: where the talk stops or the next thought begins."""
    following = bisect_left(heard.ends, place)
    first, last = heard.token(place), len(heard.speech.tokens)
    end = min(heard.token(heard.ends[following]) if following < len(heard.ends) else last, first + LONGEST, last)
    before = max(0, heard.token(place - 1)) if place else 0
    return next((token + 1 for token in range(before, end) if breaks_after(heard.speech, token)), end)


def _about(kind: Kind, start: int, end: int, heard: _Heard) -> str:
    """What follows the noun of the promise (a picture of ...), else the promise itself, else what was being talked of."""
    nouns = heard.nouns.get(kind, ())
    inside = nouns[bisect_left(nouns, start + 1) : bisect_left(nouns, end + 1)]
    before = nouns[bisect_left(nouns, start - SPOKEN_OF_BEFORE) : bisect_left(nouns, start + 1)]
    promise = heard.token(start)
    if inside:
        text = _words(heard, heard.token(inside[0]), _stop(heard, inside[0]))
    elif before:
        text = _words(heard, heard.token(before[-1]), min(_stop(heard, before[-1]), promise))
    else:
        closed = bisect_left(heard.ends, start) < bisect_left(heard.ends, end)  # "where I got it underneath"
        text = "" if closed else _words(heard, heard.token(end), _stop(heard, end))
    talked_of = _words(heard, heard.token(max(0, start - TALKED_OF)), promise)
    return text or talked_of or heard.speech.said(promise, heard.token(end - 1) + 1)


def _words(heard: _Heard, first: int, stop: int) -> str:
    """The captions' words in a span, without what only joins them to the words around."""
    texts = heard.speech.texts
    while first < stop and (texts[first] in JOINING or not is_word(texts[first])):
        first += 1
    while first < stop and (texts[stop - 1] in TRAILING or not is_word(texts[stop - 1])):
        stop -= 1
    return heard.speech.said(first, stop).rstrip(".,;:!?") if first < stop else ""


def _settled(start: int, end: int, speech: Speech, links: Sequence[tuple[str, str]]) -> str | None:
    """The link all of whose words are in the promise, else in what was said just before it."""
    for first in (start, max(0, start - SPOKEN_OF_BEFORE)):
        words = set(speech.lemmas[first:end])
        answers = [(len(key_of(name)), name) for name, _ in links if set(key_of(name)) - SKIPPED <= words]
        if answers:
            return max(answers, key=lambda answer: answer[0])[1]
    return None
