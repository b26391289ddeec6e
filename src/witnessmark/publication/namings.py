"""Where a recording names a thing that its kit may hold: whole phrases, with the words that say which one is meant."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from witnessmark.language.speech import Speech, breaks_after
from witnessmark.language.vocabulary import key_of, tokens_of
from witnessmark.procedure.lexicon import deed, kinds
from witnessmark.publication.kit_lexicon import (
    heads,
    is_form,
    keys_of,
    kind_said,
    kit_words,
    loose_roles,
    only_name,
    which_words,
)
from witnessmark.reading.model import Reading
from witnessmark.reading.sightings import Sighting
from witnessmark.reading.sizes import SizeSaid
from witnessmark.specs.table import SpecTable

REACH_BEFORE, REACH_AFTER = 6, 3
"""Tokens within which a verb that acts, or a particle such as `off`, speaks of a thing."""
NEAR = 15
"""Tokens between two entries of one list of tools."""
BETWEEN = 2
"""Words between a size and its tool."""
NEW_BEFORE = 3
"""Words before a name within which it is told to be new: `a new pair of seals`."""
MOST_BEFORE = 3
"""Words before a name that may say which one is meant."""
NOT_MEANT = frozenset({"retracted", "other_machine", "warned", "hearsay"})
"""Roles of values that nobody is to use."""


@dataclass(frozen=True, slots=True)
class Naming:
    """One naming. start, end: tokens of the whole phrase. key: its words as compared.

    generic: a bare head such as `hose`. worked: something is done to it there. passing: named in a comparison, a joke
    or a plan for another day. listed: with other tools, after `a` or `your`.
    canonical: the vocabulary's or the table's name. new: told to be so. size: said right before it.
    """

    kind: str
    start: int
    end: int
    key: tuple[str, ...]
    generic: bool
    worked: bool
    passing: bool
    listed: bool
    item: str | None
    canonical: str
    new: bool = False
    size: SizeSaid | None = None


def find_namings(reading: Reading, table: SpecTable) -> tuple[Naming, ...]:
    """Every naming in order: the sightings, and between them the bare heads that are not taken for something else."""
    speech, sightings = reading.speech, reading.sightings
    taken = {i for sighting in sightings for i in range(sighting.start, sighting.end)}
    taken |= {i for mention in reading.mentions if mention.size is None for i in range(mention.first, mention.end)}
    ends = {sighting.end: sighting for sighting in sightings}
    items = {key_of(name): row.item for row in reversed(table.rows) if row.kind == "torque" for name in row.names}
    found = [
        _of_sighting(speech, sighting, items) for sighting in sightings if not _head_follows(speech, sighting, taken)
    ]
    found += [_of_head(speech, i, ends) for i, lemma in enumerate(speech.lemmas) if i not in taken and lemma in heads()]
    namings = sorted((one for one in found if one is not None), key=lambda one: one.start)
    tools = sorted(
        [one.start for one in namings if one.kind == "tool"]
        + [mention.first for mention in reading.mentions if mention.size]
    )
    sized = {
        mention.end: mention.size for mention in reading.mentions if mention.size and mention.role not in NOT_MEANT
    }
    return tuple(
        replace(one, listed=one.listed and _has_neighbours(one, tools), size=_size_before(speech, one, sized))
        for one in namings
    )


def _size_before(speech: Speech, one: Naming, sized: Mapping[int, SizeSaid]) -> SizeSaid | None:
    """The size in `14 mil combination wrench`."""
    if one.kind != "tool":
        return None
    for at in range(one.start, max(0, one.start - BETWEEN) - 1, -1):
        if at in sized:
            return sized[at]
        if at == 0 or breaks_after(speech, at - 1):
            return None
    return None


def _has_neighbours(one: Naming, tools: Sequence[int]) -> bool:
    """Whether another tool or a size is named near."""
    return bisect_left(tools, one.end + NEAR) - bisect_left(tools, one.start - NEAR) > 1


def _head_follows(speech: Speech, sighting: Sighting, taken: set[int]) -> bool:
    """`toe panel` in `toe panel screws`: what only begins another name is not named itself."""
    at = sighting.end
    if at >= len(speech.tokens) or at in taken or breaks_after(speech, at - 1):
        return False
    kind = heads().get(speech.lemmas[at])
    return kind is not None and (sighting.kind == "part" or sighting.kind == kind == "tool")


def _of_sighting(speech: Speech, sighting: Sighting, items: Mapping[tuple[str, ...], str]) -> Naming | None:
    group = next((trait.removeprefix("group:") for trait in sighting.traits if trait.startswith("group:")), "")
    if group in kit_words("machine_groups"):
        return None
    start = _leftmost(speech, sighting.start)
    kind: str | None = sighting.kind
    key = tuple(speech.lemmas[sighting.start : sighting.end])
    item = items.get(key, sighting.item)
    if key[0] in heads() and len(key) == 1 and not is_form(speech.texts[sighting.start], sighting.name):
        kind = heads()[key[0]]
    if item is None and kind == "fastener" and sighting.traits & loose_roles():
        kind = "part"
    if sighting.item is not None and kind == "part":
        # A row without a torque may be of a fluid, a pressure or a distance: the words said tell which.
        kind = kind_said(key)
    return _naming(speech, kind, start, sighting.end, len(key) == 1, item, sighting.name) if kind else None


def _of_head(speech: Speech, at: int, ends: dict[int, Sighting]) -> Naming | None:
    before = ends.get(at)
    joined = before is not None and before.kind == "part" and not breaks_after(speech, at - 1)
    start = _leftmost(speech, before.start) if before and joined else at
    head = speech.lemmas[at]
    return _naming(
        speech, heads()[head], start, at + 1, start == at, None, only_name(head) if start == at else speech.texts[at]
    )


def _leftmost(speech: Speech, start: int) -> int:
    """The first of the words before a name that say which one is meant."""
    low = max(0, start - MOST_BEFORE)
    while start > low and speech.texts[start - 1] in which_words() and not breaks_after(speech, start - 1):
        start -= 1
    return start


def _naming(
    speech: Speech, kind: str, start: int, end: int, bare: bool, item: str | None, canonical: str
) -> Naming | None:
    key = tuple(lemma for lemma in speech.lemmas[start:end] if lemma not in ("'s", "-"))
    if any(key[-len(word) :] == word for word in (*keys_of("features"), *keys_of("at_hand"))):
        return None
    generic = bare and item is None and key[-1] in heads()
    if generic and kind == "tool" and len(key) == 1 and key in keys_of("not_alone"):
        return None
    before = speech.texts[start - 1] if start else ""
    introduced = before in ("a", "an", "your", "my", "inch", "mil", "mm")
    return Naming(
        kind,
        start,
        end,
        key,
        generic,
        _worked(speech, start, end),
        _passing(speech, start),
        introduced,
        item,
        canonical,
        not (generic and kind == "fastener") and _is_new(speech, start),
    )


def _is_new(speech: Speech, start: int) -> bool:
    """`the new seal`, `two new copper washers`, `new set of pads`."""
    if speech.texts[start] in kit_words("new"):
        return True
    for i in range(start - 1, max(-1, start - 1 - NEW_BEFORE), -1):
        if breaks_after(speech, i):
            return False
        if speech.texts[i] in kit_words("new"):
            return True
        if speech.texts[i] not in kit_words("after_new"):
            return False
    return False


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
