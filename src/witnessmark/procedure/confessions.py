"""What speakers own up to: they tell what they did, and with the same breath what was not done yet."""

from collections.abc import Sequence
from dataclasses import replace

from witnessmark.procedure.actions import read_action
from witnessmark.procedure.bare import deed_of
from witnessmark.procedure.deed import Action
from witnessmark.procedure.focus import Known
from witnessmark.procedure.lexicon import Deed, acting_verbs, deed, form_of, kinds, phrase_table, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail
from witnessmark.procedure.task import Task
from witnessmark.procedure.tasks import task_of


def own_deed(spoken: Spoken, index: int) -> int | None:
    """Token of the verb where the speaker tells a deed of their own: "I took", "I've just pulled"."""
    if spoken.text(index) not in ("i", "we"):
        return None
    at = index + 1
    while spoken.text(at) in word_set("before_own_deed"):
        at += 1
    return at if _is_past(spoken, at) or (spoken.text(at - 1) == "had" and at > index + 1) else None


def late_task(spoken: Spoken, start: int, end: int, things: list[Known]) -> Task | None:
    """The task that was due before the speaker's deed at tokens start..end (exclusive); None where none is owned up
    to.
    """
    for i in range(start + 1, end - 2):
        action = (
            _still_so(spoken, i)
            or _without_it(spoken, i)
            or _before_it_was(spoken, i)
            or _before_it_was_done(spoken, i)
            or _still_lies(spoken, i)
        )
        task = task_of(spoken, action, things) if action else None
        if task is not None:
            return task
    return None


def had_done(spoken: Spoken, at: int) -> Action | None:
    """ "(I should have) had the oil drained": what had to be done by then."""
    name = read_name(spoken, at + 1) if spoken.text(at) == "had" else None
    if name is None or name.vague:
        return None
    if spoken.text(name.end) in ("under", "underneath", "in", "on") and name.sightings:
        return _action(at, name.end + 1, Deed(("put",), "fit"), name, ["in place"])
    if not _is_past(spoken, name.end):
        return None
    what = deed(kinds(spoken.text(name.end)).verb)
    return _action(at, name.end + 1, what, name) if what else None


def _is_past(spoken: Spoken, at: int) -> bool:
    base = kinds(spoken.text(at)).verb
    same = spoken.text(at) in word_set("same_in_past") and spoken.text(at - 1) in (
        "'d",
        "had",
        "'ve",
        "have",
        "i",
        "we",
    )
    return base in acting_verbs() and (same or form_of(spoken.text(at), base) == "past")


def _action(start: int, end: int, what: Deed, name: Name, tails: Sequence[str] = ()) -> Action:
    return Action(start, end, what, name, Tail(list(tails), end), False, "verb", sure=True)


def _still_so(spoken: Spoken, index: int) -> Action | None:
    """ "With the bowl still full": it had to be drained."""
    name = read_name(spoken, index + 1) if spoken.text(index) == "with" else None
    placed = name is not None and spoken.text(name.end + 2) in word_set("determiners")  # "still on the stand"
    if name is None or name.vague or spoken.text(name.end) != "still" or placed:
        return None
    found = phrase_table("order", "undone").get(spoken.text(name.end + 1))
    return _action(index, name.end + 2, Deed((found[0],), found[1]), name, found[2:]) if found else None


def _still_lies(spoken: Spoken, index: int) -> Action | None:
    """ "I pressed both in and the sleeve was still sitting in the tray": it had to be fitted."""
    name = read_name(spoken, index) if spoken.text(index - 1) in ("and", "but", "with", ",") else None
    if name is None or name.vague or not name.sightings:
        return None
    at = name.end + (spoken.text(name.end) in ("was", "is", "'s", "were", "are"))
    if spoken.text(at) != "still":
        return None
    at += 1 + (spoken.text(at + 1) in word_set("lies"))
    place = read_name(spoken, at + 1) if spoken.text(at) in ("in", "on") else None
    if place is None or place.head not in word_set("laid_down_on"):
        return None
    return _action(index, place.end, Deed(("fit",), "fit"), name)


def _without_it(spoken: Spoken, index: int) -> Action | None:
    """ "With no rag in there": it had to be put there."""
    if spoken.texts[index : index + 2] != ("with", "no"):
        return None
    name = read_name(spoken, index + 2)
    if name is None or name.vague or spoken.text(name.end) not in ("in", "on", "under", "underneath"):
        return None
    bare = name.text.removeprefix("the ")
    text = bare if name.plural else f"a{'n' if bare[0] in 'aeiou' else ''} {bare}"
    return _action(index, name.end + 1, Deed(("put",), "fit"), replace(name, text=text), ["in place"])


def _before_it_was(spoken: Spoken, index: int) -> Action | None:
    """ "Before the bar was in"."""
    name = read_name(spoken, index + 1) if spoken.text(index) == "before" else None
    if name is None or name.vague or spoken.text(name.end) not in ("was", "were"):
        return None
    what = deed_of(spoken, name, spoken.text(name.end + 1))
    return _action(index, name.end + 2, what, name) if what else None


def _before_it_was_done(spoken: Spoken, index: int) -> Action | None:
    """ "Before I had tagged the breaker"."""
    said = spoken.texts[index : index + 3]
    if said[:2] not in (("before", "i"), ("before", "we")) or said[2:] not in (("had",), ("'d",)):
        return None
    base = kinds(spoken.text(index + 3)).verb
    return read_action(spoken, index + 3, base) if _is_past(spoken, index + 3) else None
