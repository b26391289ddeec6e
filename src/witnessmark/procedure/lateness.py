"""Steps that were left out until it was too late: told of a thing ("the tap should have been closed first"), or of what was done without them."""

from dataclasses import replace
from functools import cache

from witnessmark.procedure.actions import read_action
from witnessmark.procedure.bare import deed_of
from witnessmark.procedure.confessions import own_deed
from witnessmark.procedure.deed import Action
from witnessmark.procedure.focus import Known
from witnessmark.procedure.lexicon import Deed, acting_verbs, deed, form_of, kinds, phrase_table, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail
from witnessmark.procedure.task import FITTING, TAKING, Task
from witnessmark.procedure.tasks import task_of

LONGEST_NAME = 5
BE = ("is", "'s", "are", "'re", "was", "were")
EARLY = frozenset({"before", "first", "earlier", "beforehand", "sooner"})


@cache
def _phrases(name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    """The phrases of one list by their first word, longest first."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for form in phrase_table("order", "says")[name]:
        words = tuple(form.split())
        found.setdefault(words[0], []).append(words)
    return {first: tuple(sorted(rows, key=lambda row: -len(row))) for first, rows in found.items()}


def phrase_at(spoken: Spoken, index: int, name: str) -> tuple[str, ...] | None:
    """The longest phrase of a list of data/procedure/order.toml that begins at a token."""
    for words in _phrases(name).get(spoken.texts[index], ()):
        if spoken.texts[index : index + len(words)] == words:
            return words
    return None


def left_late(spoken: Spoken, index: int, end: int, things: list[Known], owned: bool) -> tuple[Task | None, int] | None:
    """The task that was due earlier, as told at tokens index..end (exclusive), and the token where it is told.

    owned: whether the speaker has just said that something went wrong. The task is None where its words are not understood.
    """
    passive = _passive(spoken, index, end, owned)
    if passive is not None:
        return task_of(spoken, passive, things), index
    unmarked = _without(spoken, index, end, True) if owned and spoken.texts[index] == "without" else None
    if unmarked is not None:
        return task_of(spoken, unmarked, things), index
    done = _own(spoken, index)
    if done is None:
        return None
    for i in range(done[1], end - 1):
        reversed_order = done[0] in FITTING and "before" in spoken.texts[done[1] : i] and "first" in spoken.texts[i:end]
        action = (
            _still_lying(spoken, i, done[0])
            or _without(spoken, i, end, owned)
            or (_passive(spoken, i, end, True) if reversed_order else None)
        )
        if action is not None:
            return task_of(spoken, action, things), i
        at = _never_did(spoken, i, end, done[0])
        if at is not None:
            action = past_action(spoken, at)
            return (task_of(spoken, action, things) if action else None), i
    return None


def past_action(spoken: Spoken, at: int) -> Action | None:
    """The action of a verb in the past, "took the picture" among them."""
    return _photographed(spoken, at) or plain_action(spoken, at)


def plain_action(spoken: Spoken, at: int) -> Action | None:
    """The action of a verb in the past; where its words alone would not do for a step, the verb and its thing."""
    base = kinds(spoken.text(at)).verb
    action, name, what = read_action(spoken, at, base), read_name(spoken, at + 1), deed(base)
    if action is not None or name is None or name.vague or what is None:
        return action
    return _act(at, name.end, what, name) if name.sightings else None


def _act(start: int, end: int, what: Deed, name: Name | None) -> Action:
    return Action(start, end, what, name, Tail([], end), False, "verb", sure=True)


def _before(spoken: Spoken, end: int) -> Name | None:
    """The longest name that ends before a token."""
    for size in range(LONGEST_NAME, 0, -1):
        name = read_name(spoken, end - size) if end >= size else None
        if name is not None and name.end == end and not name.vague:
            return name
    return None


def _passive(spoken: Spoken, index: int, end: int, owned: bool) -> Action | None:
    """ "The wheel nuts should have been cracked before it went up"."""
    said = phrase_at(spoken, index, "passive") or (phrase_at(spoken, index, "passive_if_owned") if owned else None)
    if said is None:
        return None
    at = index + len(said)
    name = _before(spoken, index) or _pointed_at(spoken, index, end)
    if name is None or not EARLY & set(spoken.texts[at:end]):
        return None
    base = kinds(spoken.text(at)).verb
    past = base in acting_verbs() and form_of(spoken.text(at), base) == "past"
    what = deed(base) if past else deed_of(spoken, name, spoken.text(at))
    return _act(index, at + 1, what, name) if what else None


def _pointed_at(spoken: Spoken, index: int, end: int) -> Name | None:
    """What "that" is: "that ought to have come off first, that guard", "the clip on the bench that should have gone on"."""
    if spoken.text(index - 1) not in ("that", "those"):
        return None
    after = _before(spoken, end)
    if after is not None and spoken.text(after.start) in ("that", "those"):
        return after
    named = (read_name(spoken, i) for i in range(max(0, index - 9), index - 1))
    return next((name for name in named if name and name.sightings and name.end < index), None)


def _own(spoken: Spoken, index: int) -> tuple[str, int] | None:
    """What the speaker tells to have done, as a class of action, and the token behind its verb.

    "I've put the cover on", "I'm after taking the caliper off", "I've the belt off".
    """
    if spoken.text(index) not in ("i", "we"):
        return None
    at = index + 3 if spoken.texts[index + 1 : index + 3] in (("'m", "after"), ("'re", "after")) else None
    at = at or own_deed(spoken, index) or _put(spoken, index)
    if at is not None and spoken.text(at) not in ("had", "have"):
        action = read_action(spoken, at, kinds(spoken.text(at)).verb)
        return (action.what.action, action.end) if action and action.what.action in TAKING | FITTING else None
    name = read_name(spoken, index + 2) if spoken.text(index + 1) in ("'ve", "have") else None
    what = deed_of(spoken, name, spoken.text(name.end)) if name and not name.vague else None
    return (what.action, name.end + 1) if what and name and what.action in TAKING | FITTING else None


def _put(spoken: Spoken, index: int) -> int | None:
    """The verb of "I've put", "I've gone and cut": one whose past is its base form."""
    at = index + 1
    while spoken.text(at) in word_set("before_own_deed"):
        at += 1
    perfect = bool({"'ve", "have", "gone", "went"} & set(spoken.texts[index + 1 : at]))
    return at if perfect and spoken.text(at) in ("put", "cut", "set", "shut", "hit") else None


def _still_lying(spoken: Spoken, index: int, own: str) -> Action | None:
    """ "(I've put the cover on) and the gasket's still on the bench": it was to be fitted; "the pins are still tight": loosened."""
    if spoken.texts[index] == "left" and own in FITTING:
        name = read_name(spoken, index + 1)
        placed = name is not None and spoken.text(name.end) in ("in", "on", "out", "off")
        return _act(index, name.end, Deed(("fit",), "fit"), name) if name and placed and not name.vague else None
    if spoken.texts[index] not in BE:
        return None
    name, at = _before(spoken, index), index + 1
    while spoken.text(at) in word_set("still_there"):
        at += 1
    if name is None or not name.sightings or at == index + 1:
        return None
    state, place = spoken.text(at), spoken.text(at + 1) in word_set("determiners")
    lies = not {"sitting", "lying", "laying"}.isdisjoint(spoken.texts[index:at])
    if own in FITTING and (lies or (state in ("in", "on", "at", "over") and place) or state in ("off", "out")):
        return _act(index, at + 1, Deed(("fit",), "fit"), name)
    found = phrase_table("order", "undone").get(state) if own in TAKING and not place else None
    return _act(index, at + 1, Deed((found[0],), found[1]), name) if found else None


def _never_did(spoken: Spoken, index: int, end: int, own: str) -> int | None:
    """Token of the verb in "(I've the belt off) and I never marked it"; None where that may yet come."""
    said = phrase_at(spoken, index, "never_did")
    if said is None or "yet" in spoken.texts[index:end]:
        return None
    at = index + len(said)
    what = deed(kinds(spoken.text(at)).verb)
    if what is None or (own in FITTING and what.action == "tighten"):
        return None
    action = read_action(spoken, at, kinds(spoken.text(at)).verb)
    named = action is not None and action.thing is not None and bool(action.thing.sightings)
    kept = kinds(spoken.text(at)).verb in word_set("done_before_taking")
    return at if named or kept or _pictured(spoken, at) else None


def _pictured(spoken: Spoken, at: int) -> bool:
    words = spoken.texts[at : at + 4]
    return words[:1] in (("took",), ("take",), ("taken",)) and not {
        "picture",
        "photo",
        "photograph",
        "pictures",
    }.isdisjoint(words)


def _photographed(spoken: Spoken, at: int) -> Action | None:
    """ "Took a picture of the wires", "took the picture"."""
    if not _pictured(spoken, at):
        return None
    if "of" not in spoken.texts[at : at + 5]:
        return _act(at, at + 3, Deed(("take", "a", "picture"), "mark"), None)
    name = read_name(spoken, spoken.texts.index("of", at) + 1)
    if name is None or name.vague:
        return None
    of = replace(name, text=f"a picture of {name.text}")
    return _act(at, name.end, Deed(("take",), "inspect"), of)


def _without(spoken: Spoken, index: int, end: int, owned: bool) -> Action | None:
    """ "(I pulled the motor) without marking the wires first"."""
    led = spoken.texts[index] == "without" or (owned and spoken.texts[index] == "before")
    base = kinds(spoken.text(index + 1)).verb
    if not led or not spoken.text(index + 1).endswith("ing") or base not in acting_verbs():
        return None
    told = owned or "first" in spoken.texts[index:end] or base in word_set("done_before_taking")
    return read_action(spoken, index + 1, base) if told else None
