"""Which cautions a repair needs, from what is said to be done, whether or not the speaker warns of it."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from witnessmark.language.speech import Speech, breaks_after
from witnessmark.language.vocabulary import contains, key_of
from witnessmark.procedure.hazards import Hazard, HazardBook, hazard_book
from witnessmark.procedure.signal_words import ORDER, Signal
from witnessmark.procedure.triggers import Pattern, Spans, occurrences, spoken_words
from witnessmark.reading.sightings import Sighting
from witnessmark.specs.table import SpecTable

MOST_OF_ONE_HAZARD = 2
SIMILE = 1
PASSING_BEFORE, PASSING_AFTER = 6, 10
TIGHTENING = 12
LISTING = 100
EARLY = 3  # tools are laid out in the first third of a recording
WARNED_BEFORE, WARNED_AFTER = 12, 24
QUOTED = 18


@dataclass(frozen=True, slots=True)
class Caution:
    """A danger that the guide must warn of.

    text: the danger, what it can do and how to avoid it; consequence and avoid are its second and third sentence. start: seconds of what gives the
    danger away, start_token: its token. whole_job: belongs before the work starts. spoken: the speaker's own warning in the captions' words, None
    where there is none near. source: the rule or standard, or `common practice`.
    """

    id: str
    hazard: str
    signal: Signal
    title: str
    text: str
    consequence: str
    avoid: str
    start: float
    start_token: int
    whole_job: bool
    spoken: str | None
    source: str


@dataclass(frozen=True, slots=True)
class _Fastener:
    """One naming of a fastener. start: token. words: the lemmas of its names. traits: of the vocabulary."""

    start: int
    words: frozenset[str]
    traits: frozenset[str]


@dataclass(frozen=True)
class _Heard:
    """A recording as the patterns see it. tokens: the token of each of their words."""

    book: HazardBook
    lemmas: tuple[str, ...]
    tokens: tuple[int, ...]
    spans: Spans
    passing: tuple[int, ...]
    similes: tuple[int, ...]
    listing: tuple[int, ...]
    tightening: tuple[int, ...]
    warning: tuple[int, ...]
    classes: frozenset[str]

    def place(self, token: int) -> int:
        """The first word at or after a token."""
        return bisect_left(self.tokens, token)


def find_cautions(
    speech: Speech, sightings: Sequence[Sighting], table: SpecTable, machine_kind: str | None
) -> tuple[Caution, ...]:
    """The cautions a recording calls for, in order of what calls for them; at most two of one hazard.

    machine_kind: as in repair.toml, such as "washing machine"; where it is None the machine is the one named most often.
    """
    if not speech.tokens:
        return ()
    heard = _listen(speech, machine_kind)
    fasteners = _fasteners(sightings, table)
    found = [
        (hazard, token) for hazard in heard.book.hazards if (token := _first(hazard, heard, fasteners)) is not None
    ]
    cautions = [_caution(hazard, token, speech, heard) for hazard, token in _chosen(found)]
    return tuple(sorted(cautions, key=lambda caution: (caution.start_token, caution.id)))


def _listen(speech: Speech, machine_kind: str | None) -> _Heard:
    book = hazard_book()
    lemmas, tokens = spoken_words(speech.lemmas)
    spans = book.index.spans(lemmas)
    cues = {name: _starts(patterns, spans) for name, patterns in book.cues.items()}
    classes = _classes(book, spans, machine_kind)
    return _Heard(
        book,
        lemmas,
        tokens,
        spans,
        cues["passing"],
        _similes(speech, tokens),
        tuple(place for place in cues["listing"] if place * EARLY <= len(lemmas)),
        cues["tightening"],
        cues["warning"],
        classes,
    )


def _starts(patterns: Iterable[Pattern], spans: Spans) -> tuple[int, ...]:
    return tuple(sorted({start for pattern in patterns for start, _ in occurrences(pattern, spans)}))


def _classes(book: HazardBook, spans: Spans, machine_kind: str | None) -> frozenset[str]:
    if machine_kind is not None:
        kind = key_of(machine_kind)
        apart = [name for name in map(key_of, book.apart) if contains(kind, name)]
        return frozenset(
            name
            for name, words in book.machines.items()
            if any(_names(kind, word, apart) for word in words)
            and not any(contains(kind, key_of(word)) for word in book.unless.get(name, ()))
        )
    said = {word: len(spans.get(word, ())) for words in book.machines.values() for word in words}
    most = max(said, key=lambda word: said[word])
    return frozenset(name for name, words in book.machines.items() if said[most] and most in words)


def _names(kind: Sequence[str], name: str, apart: Sequence[Sequence[str]]) -> bool:
    """Whether a name stands in a kind of machine: a pressure washer is no washer, an electric delivery van an `electric ... van`."""
    parts = [key_of(part) for part in name.split(" ... ")]
    at = 0
    for part in parts:
        place = next((i for i in range(at, len(kind)) if tuple(kind[i : i + len(part)]) == part), None)
        if place is None:
            return False
        at = place + len(part)
    word = [lemma for part in parts for lemma in part]
    return not any(contains(longer, word) and len(word) < len(longer) for longer in apart)


def _fasteners(sightings: Sequence[Sighting], table: SpecTable) -> tuple[_Fastener, ...]:
    """Every fastener named; the words of the table's other names for it count too."""
    names = {
        item: frozenset(lemma for row in table.rows_of(item) for name in row.names for lemma in key_of(name))
        for item in table.items()
    }
    return tuple(
        _Fastener(seen.start, names.get(seen.item or "", frozenset(key_of(seen.name))), seen.traits)
        for seen in sightings
        if seen.kind == "fastener"
    )


def _first(hazard: Hazard, heard: _Heard, fasteners: Sequence[_Fastener]) -> int | None:
    """The token that first gives a hazard away: where work is done rather than where its tools are laid out."""
    if (hazard.machines and not hazard.machines & heard.classes) or hazard.except_on & heard.classes:
        return None
    said = (
        start
        for pattern in hazard.when
        for start, _ in occurrences(pattern, heard.spans)
        if not _in_passing(start, heard)
    )
    named = (heard.place(seen.start) for seen in fasteners if hazard.traits & seen.traits or hazard.items & seen.words)
    tightened = (place for place in named if _any(heard.tightening, place, -TIGHTENING, TIGHTENING))
    places = sorted({*said, *tightened})
    at_work = [place for place in places if not _any(heard.listing, place, -LISTING, 1)]
    if at_work or (places and not hazard.general):
        return heard.tokens[(at_work or places)[0]]
    return 0 if hazard.always_on & heard.classes else None


def _in_passing(start: int, heard: _Heard) -> bool:
    """A comparison (`like a coil spring`), or work that is left for another day."""
    return _any(heard.similes, start, -SIMILE, 1) or _any(heard.passing, start, -PASSING_BEFORE, PASSING_AFTER)


def _similes(speech: Speech, tokens: Sequence[int]) -> tuple[int, ...]:
    """The words that follow `like a`."""
    compared = (i + 2 for i, pair in enumerate(pairwise(speech.texts)) if pair[0] == "like" and pair[1] in ("a", "an"))
    return tuple(bisect_left(tokens, token) for token in compared)


def _any(places: Sequence[int], at: int, low: int, high: int) -> bool:
    place = bisect_left(places, at + low)
    return place < len(places) and places[place] < at + high


def _chosen(found: Sequence[tuple[Hazard, int]]) -> Iterator[tuple[Hazard, int]]:
    """Of each hazard the entries that suit the job best: particular before general, graver before lighter, sooner before later."""
    by_hazard = sorted(found, key=lambda pair: pair[0].hazard)
    for _, group in groupby(by_hazard, key=lambda pair: pair[0].hazard):
        pairs = list(group)
        particular = [pair for pair in pairs if not pair[0].general] or pairs[:1]
        yield from sorted(particular, key=lambda pair: (ORDER.index(pair[0].signal), pair[1]))[:MOST_OF_ONE_HAZARD]


def _caution(hazard: Hazard, token: int, speech: Speech, heard: _Heard) -> Caution:
    text = f"{hazard.danger} {hazard.consequence} {hazard.avoid}"
    return Caution(
        id=hazard.id,
        hazard=hazard.hazard,
        signal=hazard.signal,
        title=hazard.title,
        text=text,
        consequence=hazard.consequence,
        avoid=hazard.avoid,
        start=speech.tokens[token].start,
        start_token=token,
        whole_job=hazard.whole_job,
        spoken=_spoken(token, speech, heard),
        source=hazard.source,
    )


def _spoken(token: int, speech: Speech, heard: _Heard) -> str | None:
    """The speaker's own warning nearest to a token, from its first word to where the talk stops."""
    at = heard.place(token)
    near = [place for place in heard.warning if at - WARNED_BEFORE <= place <= at + WARNED_AFTER]
    if not near:
        return None
    start = heard.tokens[min(near, key=lambda place: (abs(place - at), place))]
    last = min(start + QUOTED, len(speech.tokens))
    end = next((i + 1 for i in range(start, last) if breaks_after(speech, i)), last)
    return speech.said(start, end)
