"""Where a recording names a thing that its kit may hold: whole noun phrases, with the words that say which one is meant."""

import tomllib
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from witnessmark.data import read_text
from witnessmark.language.speech import Speech, breaks_after
from witnessmark.language.vocabulary import Kind, key_of, terms, tokens_of
from witnessmark.procedure.lexicon import deed, kinds
from witnessmark.reading.focus import place_words
from witnessmark.reading.sightings import Sighting

REACH_BEFORE, REACH_AFTER = 6, 3
"""Tokens within which a verb that acts, or a particle such as `off`, speaks of a thing."""
MOST_BEFORE = 3
"""Words before a name that may say which one is meant."""


@dataclass(frozen=True, slots=True)
class Naming:
    """One naming. start, end: tokens of the whole phrase. key: its words as compared. generic: a bare head such as `hose`.

    worked: something is done to it there. passing: named in a comparison, a joke or a plan for another day.
    """

    kind: str
    start: int
    end: int
    key: tuple[str, ...]
    generic: bool
    worked: bool
    passing: bool
    item: str | None


@cache
def kit_words(name: str) -> tuple[str, ...]:
    """One of the lists of data/kit.toml."""
    found: tuple[str, ...] = tuple(tomllib.loads(read_text("kit.toml"))[name])
    return found


@cache
def _keys(name: str) -> frozenset[tuple[str, ...]]:
    return frozenset(key_of(word) for word in kit_words(name))


@cache
def _which() -> frozenset[str]:
    return frozenset(kit_words("which")) | frozenset(place_words())


@cache
def _heads() -> dict[str, Kind]:
    """The bare heads of the vocabulary and what kind of thing each is; one that is several kinds is the rarer kind's."""
    found: dict[str, Kind] = {}
    for term in terms():
        for short in term.short:
            key = key_of(short)
            if len(key) == 1:
                found.setdefault(key[0], term.kind)
    return found


def find_namings(speech: Speech, sightings: Sequence[Sighting]) -> tuple[Naming, ...]:
    """Every naming in order. The sightings, and between them the bare heads that are not taken for something else."""
    taken = {i for sighting in sightings for i in range(sighting.start, sighting.end)}
    ends = {sighting.end: sighting for sighting in sightings}
    found = [_of_sighting(speech, sighting) for sighting in sightings if not _head_follows(speech, sighting, taken)]
    for i, lemma in enumerate(speech.lemmas):
        if i not in taken and lemma in _heads():
            found.append(_of_head(speech, i, ends))
    return tuple(sorted((one for one in found if one is not None), key=lambda one: one.start))


def _head_follows(speech: Speech, sighting: Sighting, taken: set[int]) -> bool:
    """`toe panel` in `toe panel screws` is not named itself."""
    at = sighting.end
    return at < len(speech.tokens) and at not in taken and speech.lemmas[at] in _heads() and sighting.kind == "part" and not breaks_after(speech, at - 1)


def _of_sighting(speech: Speech, sighting: Sighting) -> Naming | None:
    key = tuple(speech.lemmas[sighting.start : sighting.end])
    group = next((trait.removeprefix("group:") for trait in sighting.traits if trait.startswith("group:")), "")
    if group in kit_words("machine_groups"):
        return None
    start = _leftmost(speech, sighting.start)
    return _naming(speech, sighting.kind, start, sighting.end, group == "generic" and len(key) == 1, sighting.item)


def _of_head(speech: Speech, at: int, ends: dict[int, Sighting]) -> Naming | None:
    before = ends.get(at)
    joined = before is not None and before.kind == "part" and not breaks_after(speech, at - 1)
    start = _leftmost(speech, before.start if before and joined else at)
    kind = _heads()[speech.lemmas[at]]
    return _naming(speech, kind, start, at + 1, start == at, None)


def _leftmost(speech: Speech, start: int) -> int:
    """The first of the words before a name that say which one is meant."""
    low = max(0, start - MOST_BEFORE)
    while start > low and speech.texts[start - 1] in _which() and not breaks_after(speech, start - 1):
        start -= 1
    return start


def _naming(speech: Speech, kind: str, start: int, end: int, generic: bool, item: str | None) -> Naming | None:
    key = tuple(speech.lemmas[start:end])
    if any(key[-len(word) :] == word for word in _keys("features")) or any(key[-len(word) :] == word for word in _keys("at_hand")):
        return None
    return Naming(kind, start, end, key, generic, _worked(speech, start, end), _passing(speech, start), item)


def _worked(speech: Speech, start: int, end: int) -> bool:
    for i in range(start - 1, max(-1, start - 1 - REACH_BEFORE), -1):
        if breaks_after(speech, i):
            break
        verb = kinds(speech.texts[i]).verb
        if verb and deed(verb) is not None:
            return True
    after = speech.texts[end : end + REACH_AFTER]
    return any(word in _PARTICLES for word in after)


_PARTICLES = frozenset({"off", "out", "on", "in", "back", "up", "down", "loose", "apart"})


@cache
def _phrases() -> dict[str, list[tuple[str, ...]]]:
    """Every phrase of passing by its last word."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for form in kit_words("passing"):
        tokens = tokens_of(form)
        found.setdefault(tokens[-1], []).append(tokens)
    return found


def _passing(speech: Speech, start: int) -> bool:
    for i in range(max(0, start - 2), start):
        for tokens in _phrases().get(speech.texts[i], ()):
            if speech.texts[max(0, i + 1 - len(tokens)) : i + 1] == tokens:
                return True
    return False
