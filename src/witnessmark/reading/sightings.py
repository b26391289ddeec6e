"""Where the recording names a tool, part, fastener or supply of the vocabulary, or a name of the project's own table."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from witnessmark.language.phrases import Phrases
from witnessmark.language.speech import Speech
from witnessmark.language.vocabulary import Term, key_of, terms
from witnessmark.reading.focus import word_set
from witnessmark.specs.table import SpecTable


@dataclass(frozen=True, slots=True)
class Sighting:
    """One naming of a thing. start, end: tokens. name: the vocabulary's or the table's name. item: the table's item, None where it has none."""

    start: int
    end: int
    name: str
    kind: str
    item: str | None
    traits: frozenset[str] = frozenset()


_Thing = tuple[str, str, str | None, frozenset[str]]
"""name, kind, item and traits of a Sighting"""


def find_sightings(speech: Speech, table: SpecTable, vocabulary: Sequence[Term] | None = None) -> tuple[Sighting, ...]:
    """Every naming, longest form first, never overlapping, in order. The table's own names go before the vocabulary's."""
    known = _packaged() if vocabulary is None else _phrases(vocabulary)
    return tuple(Sighting(start, end, *thing) for start, end, thing in speech.find(_names(table), known))


@cache
def _packaged() -> Phrases[_Thing]:
    return _phrases(terms())


def _phrases(vocabulary: Sequence[Term]) -> Phrases[_Thing]:
    """The names of a vocabulary, by lemma, so that "lug nut" and "lug nuts" are one; the first to bear a name has it."""
    things: dict[tuple[str, ...], _Thing] = {}
    for term in vocabulary:
        thing = term.name, term.kind, None, term.traits
        for form in term.forms:
            things.setdefault(key_of(form), thing)
    return Phrases(things.items())


def _names(table: SpecTable) -> Phrases[_Thing]:
    """The table's names, by lemma; an item is of the kind that its first row tells."""
    items: dict[str, _Thing] = {}
    names: dict[tuple[str, ...], _Thing] = {}
    for row in table.rows:
        kind = "fastener" if row.property == "torque" else "part"
        thing = items.setdefault(row.item, (row.item, kind, row.item, frozenset()))
        names |= {key_of(form): thing for form in row.names}
    return Phrases(names.items())


def fastener_places(speech: Speech, sightings: Sequence[Sighting]) -> list[int]:
    """Tokens where a fastener is named, if only as "bolts" or "the nut", in order."""
    heads = word_set("fastener_heads")
    named = {s.start for s in sightings if s.kind == "fastener" or "takes_torque:yes" in s.traits}
    return sorted(named | {i for i, lemma in enumerate(speech.lemmas) if lemma in heads})
