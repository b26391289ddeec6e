"""Fasteners told by their number alone: "back panel, there's eight in it and they're a T20"."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from witnessmark.procedure.full_names import fuller, part_before
from witnessmark.procedure.lexicon import Deed, phrase_table, word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.names import read_name
from witnessmark.procedure.spoken import Spoken, display, is_plural
from witnessmark.procedure.stages import comes_apart
from witnessmark.procedure.task import Task

SAID_BEFORE, SAID_AFTER = 14, 8  # tokens before and behind a size within which its number is said
DRIVEN = 12  # tokens between a number and the word that tells that screws are counted


@dataclass(frozen=True, slots=True)
class Counted:
    """A number of fasteners at tokens start..end (exclusive). head: "screws", "" where only the number is said.

    place: where they are, "" where it is not said.
    """

    start: int
    end: int
    count: str
    head: str
    place: str


def counted_near(spoken: Spoken, start: int, end: int) -> Counted | None:
    """The number of fasteners said nearest to tokens start..end."""
    low = max(0, start - SAID_BEFORE)
    found = [c for i in range(low, min(end + SAID_AFTER, len(spoken.texts))) if (c := _counted(spoken, i)) is not None]
    near = [c for c in found if abs(spoken.utterance_of[c.start] - spoken.utterance_of[start]) <= 1]
    sizes = [(value.start_token, value.end_token) for value in spoken.values if value.kind == "tool_size"]
    near = [c for c in near if _away(c, start, end) <= min(_away(c, *size) for size in sizes)]
    return min(near, key=lambda c: _away(c, start, end)) if near else None


def _away(number: Counted, start: int, end: int) -> int:
    """Tokens between a number and the tokens start..end; 0 where they overlap."""
    return max(0, number.start - end, start - number.end)


def _counted(spoken: Spoken, index: int) -> Counted | None:
    """The number of fasteners that begins at a token."""
    text = spoken.texts[index]
    if text not in word_set("fastener_counts") or spoken.value_over.get(index) is not None:
        return None
    i = index + 1
    while spoken.text(i) in word_set("between_count") or spoken.value_over.get(i) is not None:
        i += 1
    if spoken.text(i) in phrase_table("verbs", "fasteners")["plural_heads"]:
        return Counted(index, i + 1, text, spoken.texts[i], _place(spoken, i + 1))
    if " ".join(spoken.texts[index + 1 : index + 3]) in phrase_table("verbs", "fasteners")["counted"]:
        return Counted(index, index + 3, text, "", _place(spoken, index + 3))
    driven = i  # "four t20s, all round the tray": the size stands for the fasteners
    while (i > index + 1 and spoken.text(driven) in ("s", ",", "all")) or spoken.value_over.get(driven) is not None:
        driven += 1
    placed = _place(spoken, driven)
    return Counted(index, max(driven, index + 2), text, "", placed) if placed else None


def _place(spoken: Spoken, index: int) -> str:
    """Where the fasteners are: "round the flange"."""
    if spoken.text(index) not in word_set("fastener_places"):
        return ""
    if spoken.stops_before(index) and spoken.text(index - 1) != ",":
        return ""
    place = read_name(spoken, index + 1)
    plain = place is None or place.vague or not place.sightings or spoken.text(index + 1) not in word_set("determiners")
    return "" if plain or place is None else f"{spoken.texts[index]} {place.text}"


def told_of(spoken: Spoken, number: Counted, value: ValueAt | None) -> str:
    """The fasteners as a guide names them: "the eight back panel screws"."""
    head = number.head or ("screws" if value is None or value.shown[0] in "TP" else "bolts")
    part = part_before(spoken, number.start)
    if number.place:
        return f"the {number.count} {head} {number.place}"
    return f"the {number.count} {part} {head}" if part else f"the {number.count} {head}"


def count_tasks(spoken: Spoken, tasks: Sequence[Task]) -> list[Task]:
    """Fasteners that are only counted while things come apart: "there's two bolts a side"."""
    return list(_tasks(spoken, tasks))


def _tasks(spoken: Spoken, tasks: Sequence[Task]) -> Iterator[Task]:
    for sighting in spoken.sightings:
        at = sighting.start - 1
        if sighting.kind != "fastener" or not is_plural(spoken.texts[sighting.end - 1]):
            continue
        while (at > 0 and spoken.texts[at] in word_set("between_count")) or spoken.value_over.get(at) is not None:
            at -= 1
        if (
            spoken.texts[at] not in word_set("fastener_counts")
            or spoken.value_over.get(at) is not None
            or not comes_apart(spoken, tasks, at)
        ):
            continue
        name = display(spoken, sighting)
        near = [
            t
            for t in tasks
            if (abs(t.start - at) < 26 and (name in t.items or spoken.texts[sighting.end - 1] in t.thing))
            or t.start <= at < t.end
        ]
        if near or any(spoken.texts[i] in ("new", "with", "every", "hook") for i in range(at - 2, at)):
            continue
        place = _place(spoken, sighting.end) if sighting.item is None else ""
        whole = fuller(spoken, f"the {name}", sighting.start, (sighting,))
        if place and whole.removeprefix("the ") not in spoken.table_names:
            whole = f"the {name}"
        elif whole != f"the {name}":
            place = ""
        thing = whole.replace("the ", f"the {spoken.texts[at]} ", 1)
        yield Task(
            at,
            sighting.end,
            Deed(("remove",), "remove"),
            f"{thing} {place}".strip(),
            True,
            [],
            False,
            "count",
            False,
            (name,),
        )
