"""Torques and tool sizes at the action they belong to."""

from collections.abc import Iterable

from witnessmark.language.words import singular
from witnessmark.procedure.lexicon import Deed
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.stages import comes_apart
from witnessmark.procedure.task import FITTING, SIZED, TAKING, Task
from witnessmark.procedure.undoing import item_is_plural, told_elsewhere, undoing

NEAR_SIZE = 14
NEAR_TORQUE = 30
AGAIN = 40  # tokens within which a size is told of the same undoing


def place_torques(spoken: Spoken, tasks: list[Task], recap: int) -> None:
    """Every torque at the tightening it belongs to; one that nobody put in words makes a task of its own.

    Said again, it makes none. recap: token from which values are only run through again.
    """
    done: dict[str, Task] = {}
    torques = [value for value in spoken.values if value.kind == "torque" and value.item is not None]
    # What a step says of an item is the manual's value, true wherever it stands: one that may belong to another item
    # is told where nothing surer tells of the item.
    for value in [v for v in torques if not v.quoted] + [v for v in torques if v.doubtful]:
        if value.item is None:
            continue
        if value.item in done:
            if not value.doubtful:
                done[value.item].values.append(value)
            continue
        again = value.start_token >= recap
        task = None if again else _tightening(spoken, tasks, value)
        if task is None:
            task = _own_task(tasks, value, again)
            if task is None:
                continue
            tasks.append(task)
        task.thing, task.torque, task.items = f"the {value.item}", value.shown, (value.item,)
        task.doubtful = value.doubtful
        task.tails = [tail for tail in task.tails if not tail.endswith(value.shown)]
        if value not in task.values:
            task.values.append(value)
        if not again:
            task.end = max(task.end, value.end_token)
        done[value.item] = task


def _own_task(tasks: Iterable[Task], value: ValueAt, again: bool) -> Task | None:
    """A tightening where its torque is said, or where the thing was fitted if it is told only in running through.

    None where it is told only there and nothing tells when it was fitted: after the test drive nobody tightens it.
    """
    item = value.item or ""
    fitted = [
        task
        for task in tasks
        if again and task.what.action in FITTING and (item in task.items or task.thing.endswith(item))
    ]
    at = fitted[-1] if fitted else None
    if again and at is None:
        return None
    start, end = (at.start, at.end) if at else (value.start_token, value.end_token)
    return Task(start, end, Deed(("tighten",), "tighten"), "", item_is_plural(item), [], False, "value", True)


def _tightening(spoken: Spoken, tasks: Iterable[Task], value: ValueAt) -> Task | None:
    """The tightening task that a torque belongs to."""
    near = [
        task
        for task in tasks
        if task.what.action == "tighten"
        and not task.negative
        and not task.torque
        and abs(task.start - value.start_token) <= NEAR_TORQUE
        and (value.item in task.items or _same_utterance(spoken, task.start, value.start_token))
    ]
    near.sort(key=lambda task: (value.item not in task.items, abs(task.start - value.start_token)))
    return near[0] if near else None


def place_sizes(spoken: Spoken, tasks: list[Task]) -> None:
    """Every tool size at the nearest action of its utterance, or at the fastener named beside it."""
    held = {id(size) for task in tasks for size in task.sizes}
    for value in spoken.values:
        if value.kind != "tool_size" or (value.quoted and not value.doubtful) or id(value) in held:
            continue
        near = [
            task
            for task in tasks
            if not task.negative
            and task.what.action in SIZED
            and not task.sizes
            and _distance(task, value) <= NEAR_SIZE
            and _same_utterance(spoken, task.start, value.start_token)
            and _may_be_on(spoken, task, value)
        ]
        tightened = [
            task
            for task in tasks
            if task.torque
            and not task.sizes
            and (value.item is None or value.item in task.items)
            and _same_utterance(spoken, task.start, value.start_token)
        ]
        told = [
            t
            for t in tasks
            if value.item in t.items and t.what.action in TAKING and not t.negative and _distance(t, value) <= AGAIN
        ]
        elsewhere = told_elsewhere(spoken, value)
        if told and not value.quoted and not elsewhere:
            near = [task for task in told if not task.sizes]
            if not near:
                continue
        elif value.quoted or elsewhere:
            near, tightened = [], []
        if near:
            min(near, key=lambda task: _distance(task, value)).sizes.append(value)
        elif (tightened and comes_apart(spoken, tasks, value.start_token) is False) or len(tightened) == 1:
            min(tightened, key=lambda task: _distance(task, value)).sizes.append(value)
        else:
            task = undoing(spoken, tasks, value)
            if task is not None and not _told_already(tasks, task, value.item):
                tasks.append(task)


def _may_be_on(spoken: Spoken, task: Task, value: ValueAt) -> bool:
    """Whether a size may be of what a task is done to: "14 mm on the banjo bolt" is of that bolt alone."""
    if _is_foreign(task, value):
        return False
    if spoken.text(value.end_token) not in ("on", "for"):
        return True
    here = range(value.end_token + 1, value.end_token + 4)
    named = next((s for i in here if (s := spoken.sighting_over.get(i)) and s.kind == "fastener"), None)
    if named is None or not task.thing:
        return True
    head = singular(named.name.split()[-1])
    return head in {singular(word) for word in task.thing.split()} or (named.item or named.name) in task.items


def _is_foreign(task: Task, value: ValueAt) -> bool:
    """Whether a size is of an item of the table that has no word in common with what a task is done to."""
    if task.guessed or not task.thing or not value.item or value.quoted:
        return False
    if task.torque:
        return value.item not in task.items
    said = {singular(word) for name in (task.thing, *task.items) for word in name.replace(",", "").split()}
    return not said & {singular(word) for word in value.item.replace(",", "").split()}


def _told_already(tasks: Iterable[Task], task: Task, item: str | None) -> bool:
    """Whether the same undoing stands close by, or what comes off with the same item's tool."""
    near = [t for t in tasks if abs(t.start - task.start) <= AGAIN and not t.negative]
    sized = item is not None and any(size.item == item for t in near for size in t.sizes)
    return sized or any(t.thing == task.thing and t.what == task.what for t in near)


def _distance(task: Task, value: ValueAt) -> int:
    return max(0, task.start - value.end_token, value.start_token - task.end)


def _same_utterance(spoken: Spoken, a: int, b: int) -> bool:
    return spoken.utterance_of[a] == spoken.utterance_of[b]
