"""Things told by the fastener that a tool size belongs to: "guard off, that's two of the five mil" is of the guard's bolts."""

from collections.abc import Iterator, Sequence

from witnessmark.language.words import singular
from witnessmark.procedure.full_names import part_held
from witnessmark.procedure.lexicon import Deed, phrase_table, word_set
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.task import Task
from witnessmark.procedure.undoing import item_is_plural

TOLD = 40  # tokens within which the same fasteners are told already
MEANT = 30  # tokens within which "it" is still the thing that was renamed


def tell_fasteners(spoken: Spoken, tasks: Sequence[Task]) -> list[Task]:
    """Name each thing with a tool size by the item of the table that the size is of, where both can be one.

    Returns the fasteners that come off with a part of which only the part was named.
    """
    return list(_told(spoken, tasks))


def _told(spoken: Spoken, tasks: Sequence[Task]) -> Iterator[Task]:
    for task in tasks:
        size = task.sizes[0] if task.sizes else None
        if size is None or not size.item or size.quoted or not task.thing or task.torque or size.item in task.thing:
            continue
        named = task.thing
        if _is_said_of(spoken, task, size.item):
            _rename(task, size.item)
            continue
        if _is_short_for(task, size.item):
            _rename(task, size.item)
        elif _is_held_by(task, size.item):
            article = "the new" if named.startswith("the new ") else "the"
            task.thing = f"{article} {part_held(size.item)}"
            if _comes_off(task) and not _is_told(tasks, task, size.item):
                yield _loosened(task, size.item)
                task.sizes = []
        for later in tasks:
            if later.guessed and later.thing == named and 0 < later.start - task.start <= MEANT:
                later.thing, later.plural = task.thing, task.plural


def tell_parts(tasks: Sequence[Task]) -> None:
    """Name in full a part that is fitted just before its fasteners are tightened: "panel on, and the two screws get one"."""
    for tight in tasks:
        if not tight.torque or not part_held(tight.thing.removeprefix("the ")):
            continue
        item = tight.thing.removeprefix("the ")
        near = [t for t in tasks if t.what.action == "fit" and not t.torque and 0 <= tight.start - t.start <= TOLD]
        for task in near[-1:]:
            if _is_held_by(task, item) and len(_words(task.thing)) == 1:
                task.thing = task.thing.rsplit(" ", 1)[0] + f" {part_held(item)}"


def _words(thing: str) -> list[str]:
    """The words of a thing that tell which it is."""
    return [word for word in thing.split() if word not in word_set("short_leads") | word_set("numbers")]


def _is_short_for(task: Task, item: str) -> bool:
    """Whether a thing is the item under a shorter name: "the two roller bolts"."""
    said, full = _words(task.thing), item.replace(",", "").split()
    if not said or singular(said[-1]) != singular(full[-1]) or item_is_plural(item) != item_is_plural(task.thing):
        return False
    return {singular(word) for word in said} <= {singular(word) for word in full}


def _is_said_of(spoken: Spoken, task: Task, item: str) -> bool:
    """Whether "they come off" was said of the fasteners whose size stands beside it."""
    if not task.guessed or task.what.action not in ("remove", "loosen"):
        return False
    said = set(spoken.texts[task.start : task.end])
    return bool(said & word_set("plural_pronouns")) and item_is_plural(item) and not task.plural


def _is_held_by(task: Task, item: str) -> bool:
    """Whether a thing is the part that the item holds: the guard, of the chain guard bolts."""
    heads = phrase_table("verbs", "fasteners")["heads"]
    part = part_held(item).split()
    return part[-1:] == task.thing.split()[-1:] and not {singular(word) for word in task.thing.split()} & set(heads)


def _comes_off(task: Task) -> bool:
    return task.what.action == "remove" and task.what.words[0] in phrase_table("verbs", "held")["off"]


def _is_told(tasks: Sequence[Task], task: Task, item: str) -> bool:
    """Whether the fasteners are told by themselves close by."""
    return any(abs(t.start - task.start) <= TOLD and (item in t.items or t.thing.endswith(item)) for t in tasks)


def _rename(task: Task, item: str) -> None:
    """The item in the place of the thing, with the number that was said of it."""
    counts = [word for word in task.thing.split() if word in word_set("fastener_counts")]
    task.thing = " ".join(["the", *counts, item])
    task.items, task.plural = (item, *task.items), item_is_plural(item)


def _loosened(task: Task, item: str) -> Task:
    """The fasteners that come off before their part."""
    what, plural = Deed(("remove",), "remove"), item_is_plural(item)
    return Task(
        task.start,
        task.end,
        what,
        f"the {item}",
        plural,
        [],
        False,
        "count",
        task.sure,
        (item, *task.items),
        sizes=list(task.sizes),
    )
