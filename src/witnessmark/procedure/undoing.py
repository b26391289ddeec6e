"""Fasteners that come off although nobody says so: named with the size of their tool while things come apart."""

from collections.abc import Sequence
from dataclasses import replace

from witnessmark.language.words import singular
from witnessmark.procedure.counting import Counted, counted_near, told_of
from witnessmark.procedure.full_names import fuller
from witnessmark.procedure.lexicon import Deed, word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.names import read_name
from witnessmark.procedure.spoken import Spoken, display
from witnessmark.procedure.stages import comes_apart
from witnessmark.procedure.task import Task
from witnessmark.reading.sightings import Sighting


def undoing(spoken: Spoken, tasks: Sequence[Task], value: ValueAt) -> Task | None:
    """What only the size of its tool tells while things come apart: it is undone."""
    if not comes_apart(spoken, tasks, value.start_token, None if value.quoted else value.item):
        return None
    number = counted_near(spoken, value.start_token, value.end_token)
    if told_elsewhere(spoken, value):
        value = replace(value, quoted=True, item=None)  # "the two at the side of the stem" are no plug of the steerer
    if value.item is not None and not value.quoted:
        return _of_item(spoken, value, number)
    named = _fastener_near(spoken, value)
    if named is not None and not (number is not None and number.place and not number.head):
        return _of_fastener(spoken, value, named)
    if number is not None:
        start, end = min(number.start, value.start_token), max(number.end, value.end_token)
        return _undone(value, start, end, told_of(spoken, number, value), True, ())
    return None if value.quoted else _by_table(spoken, value)


def told_elsewhere(spoken: Spoken, value: ValueAt) -> bool:
    """Whether the fasteners counted beside a size are told to be where the name of the size's item says nothing of."""
    number = counted_near(spoken, value.start_token, value.end_token)
    if number is None or not number.place or value.item is None:
        return False
    told = {singular(word) for word in f"{number.head} {number.place}".split()}
    return not told & {singular(word) for word in value.item.replace(",", "").replace("-", " ").split()}


def _of_item(spoken: Spoken, value: ValueAt, number: Counted | None) -> Task:
    """The fastener of the table that a size belongs to, with the number said of it."""
    item = value.item or ""
    plural = item_is_plural(item)
    count = f"{number.count} " if number is not None and plural else ""
    start = min(number.start, value.start_token) if number is not None else value.start_token
    end = max(number.end, value.end_token) if number is not None else value.end_token
    return _undone(value, start, end, f"the {count}{item}", plural, (item,), _direction(spoken, value))


def _fastener_near(spoken: Spoken, value: ValueAt) -> Sighting | None:
    """The fastener named beside a size, in the same utterance or the next to it."""
    near = [
        s
        for s in spoken.sightings
        if s.kind == "fastener"
        and max(s.start - value.end_token, value.start_token - s.end) <= 11
        and abs(spoken.utterance_of[s.start] - spoken.utterance_of[value.start_token]) <= 1
    ]
    return min(near, key=lambda s: abs(s.start - value.start_token)) if near else None


def _of_fastener(spoken: Spoken, value: ValueAt, sighting: Sighting) -> Task:
    """The fastener named beside a size, with its number and its place."""
    name = display(spoken, sighting)
    start, end = min(sighting.start, value.start_token), max(sighting.end, value.end_token)
    thing = f"the {name}" if sighting.item else fuller(spoken, f"the {name}", sighting.start, ())
    count = spoken.text(sighting.start - 1)
    counted = count in word_set("fastener_counts") and item_is_plural(name)
    count = f"{count} " if counted and spoken.value_over.get(sighting.start - 1) is None else ""
    thing = thing.replace("the ", f"the {count}", 1)
    if sighting.item is None and spoken.text(sighting.end) in word_set("fastener_places"):
        place = read_name(spoken, sighting.end + 1)
        if place is not None and not place.vague and place.sightings:
            thing = f"the {count}{name} {spoken.text(sighting.end)} {place.text}"
    return _undone(value, start, end, thing, item_is_plural(name), (name,), _direction(spoken, value))


def _undone(
    value: ValueAt, start: int, end: int, thing: str, plural: bool, items: tuple[str, ...], tails: Sequence[str] = ()
) -> Task:
    """The undoing of a thing, tokens start..end, that only the size of its tool tells.

    A size that may be another fastener's is not told.
    """
    what = Deed(("remove",), "remove") if plural else Deed(("undo",), "loosen")
    sizes = [] if value.quoted else [value]
    return Task(start, end, what, thing, plural, list(tails), False, "value", False, items, sizes, list(sizes))


def _best_named(spoken: Spoken, near: set[str]) -> str | None:
    """The one name of the table of which most was said; half its words at least."""
    scored = []
    for name in spoken.table_names:
        words = {singular(word) for word in name.replace(",", "").replace("-", " ").split()}
        share = len(words & near) / len(words)
        if share >= 0.5:
            scored.append((share * len(words & near) ** 0.5, name))
    scored.sort(reverse=True)
    if not scored or (len(scored) > 1 and scored[0][0] == scored[1][0]):
        return None
    return scored[0][1]


def _by_table(spoken: Spoken, value: ValueAt) -> Task | None:
    """A size with neither action nor fastener: what the words around name of the table."""
    utterance = spoken.utterances[spoken.utterance_of[value.start_token]]
    near = set(spoken.speech.lemmas[max(utterance.start - 20, value.start_token - 45, 0) : value.end_token + 10])
    name = _best_named(spoken, near)
    if name is None:
        return None
    return _undone(
        value,
        value.start_token,
        value.end_token,
        f"the {name}",
        item_is_plural(name),
        (name,),
        _direction(spoken, value),
    )


def _direction(spoken: Spoken, value: ValueAt) -> list[str]:
    """Which way it is said to turn beside a size."""
    utterance = spoken.utterances[spoken.utterance_of[value.start_token]]
    said = spoken.texts[max(utterance.start, value.start_token - 25) : value.end_token + 12]
    return [word for word in said if word in word_set("directions")][:1]


def item_is_plural(item: str) -> bool:
    """Whether a name of the table is a plural."""
    return item.split(",")[0].endswith("s")
