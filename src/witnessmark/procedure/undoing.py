"""Fasteners that come off although nobody says so: counted, or named with their size, while things come apart."""

from collections.abc import Iterable, Sequence

from witnessmark.language.words import singular
from witnessmark.procedure.full_names import fuller, part_before
from witnessmark.procedure.lexicon import Deed, word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.names import read_name
from witnessmark.procedure.spoken import Spoken, display, is_plural
from witnessmark.procedure.task import FITTING, TAKING, Task


def undoing(spoken: Spoken, tasks: Sequence[Task], value: ValueAt) -> Task | None:
    """A fastener named with its size while things come apart: it is undone."""
    if not comes_apart(spoken, tasks, value.start_token):
        return None
    near = [
        s
        for s in spoken.sightings
        if s.kind == "fastener"
        and max(s.start - value.end_token, value.start_token - s.end) <= 11
        and abs(spoken.utterance_of[s.start] - spoken.utterance_of[value.start_token]) <= 1
    ]
    if not near:
        return _counted(spoken, value) or _by_table(spoken, value)
    sighting = min(near, key=lambda s: abs(s.start - value.start_token))
    name = display(spoken, sighting)
    start, end = min(sighting.start, value.start_token), max(sighting.end, value.end_token)
    thing = f"the {name}" if sighting.item else fuller(spoken, f"the {name}", sighting.start, ())
    count = spoken.text(sighting.start - 1)
    if count in word_set("numbers") and item_is_plural(name) and spoken.value_over.get(sighting.start - 1) is None:
        thing = thing.replace("the ", f"the {count} ", 1)
    if sighting.item is None and spoken.text(sighting.end) in word_set("fastener_places"):
        place = read_name(spoken, sighting.end + 1)
        if place is not None and not place.vague and place.sightings:
            thing = f"the {count} {name}" if count in word_set("numbers") else f"the {name}"
            thing = f"{thing} {spoken.text(sighting.end)} {place.text}"
    return _undone(value, start, end, thing, item_is_plural(name), (name,))


def _undone(
    value: ValueAt, start: int, end: int, thing: str, plural: bool, items: tuple[str, ...], tails: Sequence[str] = ()
) -> Task:
    """The undoing of a thing, tokens start..end, that only the size of its tool tells."""
    return Task(
        start,
        end,
        Deed(("undo",), "loosen"),
        thing,
        plural,
        list(tails),
        False,
        "value",
        False,
        items,
        [value],
        [value],
    )


def comes_apart(spoken: Spoken, tasks: Iterable[Task], at: int) -> bool:
    """Whether things come apart rather than together at a token,
    by what was done just before and is about to be done.
    """
    around = [
        task
        for task in tasks
        if at - 110 <= task.start <= at + 12
        and task.what.action in TAKING | FITTING
        and not task.negative
        and task.what.words[0] not in ("put", "use", "start")
        and task.source not in ("value", "count")
    ]
    recent = sorted(around, key=lambda task: abs(task.start - at))[:5]
    taking = sum(task.what.action in TAKING for task in recent)
    if not recent:
        older = [
            t
            for t in tasks
            if t.start < at
            and t.what.action in TAKING | FITTING
            and t.source not in ("value", "count")
            and t.what.words[0] not in ("put", "use", "start")
        ]
        return older[-1].what.action in TAKING if older else at < len(spoken.texts) // 2
    return 2 * taking > len(recent) or (2 * taking == len(recent) and at < len(spoken.texts) // 2)


def count_tasks(spoken: Spoken, tasks: Sequence[Task]) -> list[Task]:
    """Fasteners that are only counted while things come apart: "there's two bolts a side"."""
    found = []
    for sighting in spoken.sightings:
        at = sighting.start - 1
        if sighting.kind != "fastener" or not is_plural(spoken.texts[sighting.end - 1]):
            continue
        while (at > 0 and spoken.texts[at] in word_set("between_count")) or spoken.value_over.get(at) is not None:
            at -= 1
        if (
            spoken.texts[at] not in word_set("counts")
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
        place = (
            read_name(spoken, sighting.end + 1)
            if spoken.text(sighting.end) in ("on", "of", "at") and sighting.item is None
            else None
        )
        whole = fuller(spoken, f"the {name}", sighting.start, (sighting,))
        thing = whole.replace("the ", f"the {spoken.texts[at]} ", 1)
        if place is not None and not place.vague and place.sightings and whole == f"the {name}":
            thing = f"{thing} {spoken.text(sighting.end)} {place.text}"
        found.append(
            Task(at, sighting.end, Deed(("remove",), "remove"), thing, True, [], False, "count", False, (name,))
        )
    return found


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
    turn = [
        word
        for word in spoken.texts[max(utterance.start, value.start_token - 25) : value.end_token + 12]
        if word in ("clockwise", "anticlockwise", "counterclockwise")
    ]
    return _undone(value, value.start_token, value.end_token, f"the {name}", item_is_plural(name), (name,), turn[:1])


def _counted(spoken: Spoken, value: ValueAt) -> Task | None:
    """ "Three holding it to the base, T20": a count and a size where the fastener itself is left unsaid."""
    utterance = spoken.utterances[spoken.utterance_of[value.start_token]]
    for i in range(max(utterance.start, value.start_token - 10), value.start_token):
        text, follows = spoken.texts[i], spoken.text(i + 1)
        counted = text in word_set("counts") and spoken.value_over.get(i) is None
        if counted and not is_plural(follows) and follows not in word_set("no_fasteners"):
            head = "screws" if value.shown[0] in "TE" else "bolts"
            part = part_before(spoken, value.start_token)
            thing = f"the {text} {part} {head}" if part else f"the {text} {head}"
            return _undone(value, i, value.end_token, thing, True, ())
    return None


def item_is_plural(item: str) -> bool:
    """Whether a name of the table is a plural."""
    return item.split(",")[0].endswith("s")
