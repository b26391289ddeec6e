"""Actions made complete: the thing found, the values in place."""

from collections.abc import Sequence
from dataclasses import replace

from witnessmark.language.words import singular
from witnessmark.procedure.counting import count_tasks
from witnessmark.procedure.deed import Action
from witnessmark.procedure.focus import REACH, Known, in_focus, keep_in_focus, known_things, refers
from witnessmark.procedure.full_names import LATELY, bare_item, fuller
from witnessmark.procedure.held_by import tell_fasteners, tell_parts
from witnessmark.procedure.lexicon import Deed, forms_among, phrase_table, word_set
from witnessmark.procedure.placing_values import place_sizes, place_torques
from witnessmark.procedure.spoken import Spoken, is_plural, plural_of
from witnessmark.procedure.stages import built_so, tell_fitted
from witnessmark.procedure.talk import Talk, recap_start
from witnessmark.procedure.task import Task
from witnessmark.procedure.tooling import done_about
from witnessmark.procedure.wheel_nuts import loosen_on_the_ground

LATELY_NAMED = (
    16  # tokens behind its name within which the new one of a thing is surely of it, though it was not taken off
)
STRIPE_REACH = 24  # tokens behind a torque within which what is striped is its fastener
TOLD_IN = (
    "channel",
    "history",
)  # talk that tells a saying all the same: "i took a picture of how it goes", "last night"
JUST_SPOKEN = 12  # tokens back within which what "it" is to be checked of was named
JUST_NAMED = 8  # tokens back within which what "it" is was named too plainly to be a guess


def make_tasks(spoken: Spoken, actions: Sequence[Action], talk: Sequence[Talk]) -> list[Task]:
    """All tasks in the order said; those whose thing cannot be told are left out."""
    things = known_things(spoken, actions)
    recap = recap_start(spoken)
    masked = {i for stretch in talk for i in range(stretch.start, stretch.end)}
    apart = {i for stretch in talk if stretch.kind not in TOLD_IN for i in range(stretch.start, stretch.end)}
    tasks = [
        task
        for action in actions
        if action.start not in (apart if action.source == "saying" else masked)
        and not (action.start >= recap and refers(action.thing))
        and (task := task_of(spoken, action, things)) is not None
    ]
    tell_fitted(spoken, tasks)
    tasks = [task for task in tasks if not built_so(spoken, tasks, task)]
    place_torques(spoken, tasks, recap)
    tasks += count_tasks(spoken, tasks)
    place_sizes(spoken, tasks)
    tasks = tell_fasteners(spoken, tasks) + tasks
    tell_parts(tasks)
    for task in tasks:
        _tell_thread(spoken, task)
        _tell_helper(spoken, task)
    tasks.sort(key=lambda task: task.start)
    loosen_on_the_ground(spoken, tasks)
    return tasks


def _tell_helper(spoken: Spoken, task: Task) -> None:
    """What is lifted or walked by two is told so: "get somebody, and walk it out"."""
    if task.what.action not in ("lift", "lower", "move", "remove") or task.negative:
        return
    if task.source == "number":
        return  # it is the cover behind its screws that is lifted
    whole = {spoken.machine, "drum", "door", "machine"} & set(task.thing.split())
    back, ahead = (24, 16) if whole else (6, 6)
    said = spoken.texts[max(0, task.start - back) : task.end + ahead]
    if "with a helper" not in task.tails and forms_among(said, word_set("helpers")):
        task.tails.append("with a helper")


def _tell_thread(spoken: Spoken, task: Task) -> None:
    """A left-hand thread is told with the turning that it turns round."""
    turned = ("clockwise" in task.tails and task.what.action == "loosen") or (
        {"anticlockwise", "counterclockwise"} & set(task.tails) and task.what.action in ("tighten", "fit")
    )
    said = " ".join(spoken.texts[max(0, task.start - 40) : task.end + 12])
    if turned and ("left hand thread" in said or "left handed thread" in said or "reverse thread" in said):
        task.tails.append("(left-hand thread)")


def task_of(spoken: Spoken, action: Action, things: list[Known]) -> Task | None:
    """An action with its thing; None where that cannot be told. things: what is meant by "it" is put in again here."""
    if action.thing is not None and action.thing.vague and action.thing.head in word_set("idle"):
        return None
    thing, plural, near = "", False, False
    items = tuple(dict.fromkeys(sighting.item or sighting.name for sighting in action.sightings))
    if action.thing is not None and not action.thing.vague:
        thing, plural = (
            fuller(spoken, action.thing.text, action.thing.start, action.thing.sightings),
            action.thing.plural,
        )
    elif refers(action.thing) and not (
        action.thing is None
        and (
            action.source == "saying"
            or len(action.what.words) > 2
            or _plain(action)
            or action.what.words in (("check that",), ("check whether",))
        )
    ):
        referred = _referred(spoken, action, things)
        if referred is None:
            return None
        thing, plural, names, near = referred
        items = tuple(dict.fromkeys((*names, *items)))
    sizes = [*(action.thing.sizes if action.thing else ()), *action.tail.sizes]
    task = Task(
        action.start,
        action.end,
        action.what,
        thing,
        plural,
        list(action.tail.phrases),
        action.negative,
        action.source,
        action.sure,
        items,
        list(action.tail.values),
        sizes,
    )
    if action.what.words[0].startswith("check ") and task.tails:
        task.tails[0] = _named_subject(action, things, task.tails[0])
    task.guessed = bool(thing) and refers(action.thing) and not near
    if action.tail.particle and action.tail.particle not in action.what.words:
        task.tails.insert(0, action.tail.particle)
    if action.thing is None or action.thing.vague or all(s.kind == "tool" for s in action.thing.sightings):
        _checked_again(task)
    return task


def _referred(spoken: Spoken, action: Action, things: list[Known]) -> tuple[str, bool, tuple[str, ...], bool] | None:
    """What "it" stands for: the thing in full, whether it is several, its names, whether it was just named; None where that cannot be told."""
    known = (
        _own_thing(spoken, action)
        or _tightened(spoken, action)
        or in_focus(things, action, spoken.machine, spoken.engine)
    )
    if known is None:
        return None
    thing, plural = _pointed(spoken, action, known), known.plural
    names: tuple[str, ...] = (known.name,)
    keep_in_focus(things, replace(known, text=thing) if "new" in thing.split() else known, action)
    if thing == known.text and known.kind not in ("machine", "tool"):
        thing = fuller(spoken, thing, known.at, (), LATELY, held=False)
        if action.what.action != "tighten":  # else a torque told later would be taken for this one's
            names = (thing.removeprefix("the "), known.name)
    item = next((value.item for value in action.tail.values if value.item and value.kind == "interval"), None)
    if item is not None:
        thing = f"the {bare_item(item)}"
        plural = is_plural(thing)
    if action.what.action == "fill" and known.kind != "part" and action.tail.phrases:
        thing, plural = "", False  # "fill it with ...": what is filled was named too long ago
    return thing, plural, names, 0 < action.start - known.at <= JUST_NAMED


def _named_subject(action: Action, things: list[Known], told: str) -> str:
    """ "It is in there" with the name of what was spoken of just before: "the washer is in there"."""
    subject, _, rest = told.partition(" ")
    if subject not in ("it", "they"):
        return told
    near = [
        known
        for known in things
        if 0 < action.start - known.at <= JUST_SPOKEN
        and known.kind != "tool"
        and not known.aside
        and known.plural == (subject == "they")
    ]
    meant = next((known for known in reversed(near) if known.worked_on), near[-1] if near else None)
    return f"{meant.text} {rest}" if meant is not None else told


def _checked_again(task: Task) -> None:
    """ "Get the wrench out again after 50 km": what the table has checked again then is checked."""
    item = next((value.item for value in task.values if value.item and value.kind == "interval"), None)
    if item is None or not any(tail.startswith("after ") for tail in task.tails):
        return
    if task.what.action not in ("tighten", "lubricate", "clean", "fill"):
        task.what, task.sizes = Deed(("check",), "inspect"), []
    task.thing, task.items = f"the {bare_item(item)}", (item,)
    task.tails = [tail for tail in task.tails if tail == "again" or tail.startswith("after ")]


def _own_thing(spoken: Spoken, action: Action) -> Known | None:
    """What some actions are always done to: it is the tires that are inflated."""
    name = phrase_table("verbs", "own_thing").get(" ".join(action.what.words))
    if name is None:
        return None
    if "tyres" in spoken.texts or "tyre" in spoken.texts:
        name = name.replace("tire", "tyre")
    return Known(action.start, f"the {name}", name, "part", True)


def _tightened(spoken: Spoken, action: Action) -> Known | None:
    """The fastener whose torque was just told: it is what gets a stripe of paint, and what is checked again later."""
    again = action.what.words == ("check",) and "again" in action.tail.phrases and bool(action.tail.values)
    if not again and action.what.words[0] not in word_set("witness_marks"):
        return None
    reach = REACH if again else STRIPE_REACH
    near = [
        value
        for value in spoken.values
        if value.kind == "torque"
        and value.item
        and (value.doubtful or not value.quoted)
        and 0 < action.start - value.end_token <= reach
    ]
    name = (near[-1].item or "").split(",")[0] if near else ""
    if not name or (action.thing is not None and action.thing.plural != is_plural(name)):
        return None
    name = name.split()[-1] if near[-1].doubtful else name  # which bolt is not sure, that it is one is
    return Known(action.start, f"the {name}", name, "fastener", is_plural(name))


def _pointed(spoken: Spoken, action: Action, known: Known) -> str:
    """The thing in focus, with what tells it from its like: "the middle one" of the nuts is "the middle nut".

    "The dust one" is the dust seal where one was named.
    """
    which = action.thing.which if action.thing else ""
    if not which:
        return known.text
    if which not in word_set("name_words"):
        named = {name for names in spoken.full_names.values() for _, name in names if name.startswith(f"{which} ")}
        if len(named) == 1:
            return f"the {named.pop()}"
    head = known.name.split(",")[0].split()[-1]
    plural = action.thing is not None and action.thing.plural
    if which == "new":
        told = known.taken or (known.kind == "fastener" and action.start - known.at <= LATELY_NAMED)
        name = known.name.removeprefix("old ").removeprefix("new ") if told else "one"
        return f"the new {plural_of(name) if plural else name}"
    return f"the {which} {head if plural else singular(head)}"


def _plain(action: Action) -> bool:
    if (
        action.thing is None
        and action.tail.phrases
        and action.tail.phrases[0].startswith(("on ", "against ", "down on "))
    ):
        return True
    if not action.tail.phrases:
        return False
    verb = action.what.words[0]
    return verb in phrase_table("verbs", "plain") or (action.thing is None and done_about(verb, action.tail.phrases))
