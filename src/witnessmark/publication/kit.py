"""The kit of a job: tools with their sizes, parts, supplies and fasteners."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from witnessmark.language.speech import Speech
from witnessmark.language.vocabulary import contains, key_of
from witnessmark.publication.namings import Naming, find_namings
from witnessmark.reading.model import Mention, Reading

OFTEN = 2
"""Namings from which on a bare head, or a part that nothing is done to, is taken for a thing of the job."""


@dataclass(frozen=True, slots=True)
class KitItem:
    """A thing to have at hand. size: sizes said, joined ("10, 12, 14 mm"). first: seconds of its first naming, said: the captions' words there."""

    name: str
    size: str | None
    first: float
    said: str


@dataclass(frozen=True)
class Kit:
    """All that the job takes, each list in the order in which things are first named."""

    tools: tuple[KitItem, ...]
    parts: tuple[KitItem, ...]
    supplies: tuple[KitItem, ...]
    fasteners: tuple[KitItem, ...]


def find_kit(reading: Reading) -> Kit:
    """The kit of a recording."""
    namings = [one for one in find_namings(reading.speech, reading.sightings) if not one.passing]
    groups = _grouped(namings)
    def listed(kind): return [group for group in groups if group[0].kind == kind and _belongs(group)]
    return Kit(*(tuple(_item(reading.speech, group) for group in listed(kind)) for kind in ("tool", "part", "supply", "fastener")))


def _grouped(namings: Sequence[Naming]) -> list[list[Naming]]:
    """Namings of one thing together: the same item of the table, or a name that holds the other's words and ends like it."""
    groups: list[list[Naming]] = []
    for one in sorted(namings, key=lambda each: (-len(each.key), each.start)):
        home = next((group for group in groups if _same(group[0], one)), None)
        if home is None:
            groups.append([one])
        else:
            home.append(one)
    for group in groups:
        group.sort(key=lambda each: (-len(each.key), each.start))
    return sorted(groups, key=lambda group: min(each.start for each in group))


def _same(longer: Naming, shorter: Naming) -> bool:
    if longer.kind != shorter.kind:
        return longer.key == shorter.key
    if longer.item is not None and longer.item == shorter.item:
        return True
    return longer.key[-1] == shorter.key[-1] and set(shorter.key) <= set(longer.key)


def _belongs(group: Sequence[Naming]) -> bool:
    best = group[0]
    if best.kind in ("tool", "supply"):
        return not all(one.generic for one in group) or len(group) >= OFTEN
    if best.kind == "fastener":
        return not all(one.generic for one in group)
    if all(one.generic for one in group):
        return len(group) > OFTEN and any(one.worked for one in group)
    return any(one.worked for one in group) or len(group) >= OFTEN


def _item(speech: Speech, group: Sequence[Naming]) -> KitItem:
    first = min(group, key=lambda one: one.start)
    best = group[0]
    name = " ".join(text for text in speech.texts[best.start : best.end] if text != "'s")
    return KitItem(name, None, speech.tokens[first.start].start, speech.said(first.start, first.end))
