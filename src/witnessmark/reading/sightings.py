"""Where the recording names a tool, part, fastener or supply of the vocabulary, or a name of the project's own table."""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.language.speech import Speech
from witnessmark.language.vocabulary import Term, key_of, terms
from witnessmark.reading.focus import word_set
from witnessmark.specs.table import SpecTable

SEPARATOR = "\t"


@dataclass(frozen=True, slots=True)
class Sighting:
    """One naming of a thing. start, end: tokens. name: the vocabulary's or the table's name. item: the table's item, None where it has none."""

    start: int
    end: int
    name: str
    kind: str
    item: str | None
    traits: frozenset[str] = frozenset()


def find_sightings(speech: Speech, table: SpecTable, vocabulary: Sequence[Term] | None = None) -> tuple[Sighting, ...]:
    """Every naming, longest form first, never overlapping, in order. The table's own names go before the vocabulary's."""
    known = terms() if vocabulary is None else vocabulary
    things: dict[str, tuple[str, str, str | None, frozenset[str]]] = {}
    phrases: dict[tuple[str, ...], tuple[str, str]] = {}  # by lemma, so that "lug nut" and "lug nuts" are one
    for term in known:
        label = f"{term.kind}{SEPARATOR}{term.name}"
        things[label] = (term.name, term.kind, None, term.traits)
        for form in term.forms:
            phrases.setdefault(key_of(form), (label, form))
    for row in table.rows:
        label = f"item{SEPARATOR}{row.item}"
        kind = "fastener" if row.kind == "torque" else "part"
        things.setdefault(label, (row.item, kind, row.item, frozenset()))
        for form in row.names:
            phrases[key_of(form)] = (label, form)
    found = speech.find(phrases.values())
    return tuple(Sighting(start, end, *things[label]) for start, end, label in found)


def fastener_places(speech: Speech, sightings: Sequence[Sighting]) -> list[int]:
    """Tokens where a fastener is named, if only as "bolts" or "the nut", in order."""
    heads = word_set("fastener_heads")
    named = {s.start for s in sightings if s.kind == "fastener" or "takes_torque:yes" in s.traits}
    return sorted(named | {i for i, lemma in enumerate(speech.lemmas) if lemma in heads})
