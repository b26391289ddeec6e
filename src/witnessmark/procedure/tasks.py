"""Actions made complete: the thing found, the values in place."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from witnessmark.procedure.deed import Action
from witnessmark.procedure.focus import Known, in_focus, known_things, refers
from witnessmark.procedure.lexicon import Deed, phrase_table
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.spoken import Spoken, display
from witnessmark.procedure.talk import Talk

TAKING = frozenset({"remove", "loosen", "disconnect", "drain", "open"})
FITTING = frozenset({"fit", "tighten", "connect", "fill", "close", "apply", "lubricate"})
SIZED = TAKING | FITTING | {"adjust", "hold", "inspect", "turn"}
NEAR_SIZE = 14
NEAR_TORQUE = 30


@dataclass(slots=True)
class Task:
    """An action ready to be written. thing: with its article, "" where the verb needs none. item: the table's name where it has one."""

    start: int
    end: int
    what: Deed
    thing: str
    plural: bool
    tails: list[str]
    negative: bool
    source: str
    sure: bool
    items: tuple[str, ...] = ()
    values: list[ValueAt] = field(default_factory=list)
    sizes: list[ValueAt] = field(default_factory=list)
    torque: str = ""


def make_tasks(spoken: Spoken, actions: Sequence[Action], talk: Sequence[Talk]) -> list[Task]:
    """All tasks in the order said; those whose thing cannot be told are left out."""
    things = known_things(spoken, actions)
    masked = {i for stretch in talk for i in range(stretch.start, stretch.end)}
    tasks = [task for action in actions if action.start not in masked and (task := _task(spoken, action, things)) is not None]
    _place_torques(spoken, tasks)
    _place_sizes(spoken, tasks)
    return sorted(tasks, key=lambda task: task.start)


def _task(spoken: Spoken, action: Action, things: Sequence[Known]) -> Task | None:
    thing, plural = "", False
    items = tuple(dict.fromkeys(sighting.item or sighting.name for sighting in action.sightings))
    if action.thing is not None and not action.thing.vague:
        thing, plural = action.thing.text, action.thing.plural
    elif refers(action.thing) and not (action.thing is None and (len(action.what.words) > 2 or _plain(action))):
        known = in_focus(things, action, spoken.machine)
        if known is None:
            return None
        thing, plural = known.text, known.plural
        items = (known.name, *items)
    sizes = [*(action.thing.sizes if action.thing else ()), *action.tail.sizes]
    task = Task(action.start, action.end, action.what, thing, plural, list(action.tail.phrases), action.negative, action.source, action.sure, items, list(action.tail.values), sizes)
    if action.tail.particle and action.tail.particle not in action.what.words:
        task.tails.insert(0, action.tail.particle)
    return task


def _plain(action: Action) -> bool:
    return action.what.words[0] in phrase_table("verbs", "plain") and bool(action.tail.phrases)


def _same_utterance(spoken: Spoken, a: int, b: int) -> bool:
    return spoken.utterance_of[a] == spoken.utterance_of[b]


def _place_torques(spoken: Spoken, tasks: list[Task]) -> None:
    """Every torque at the tightening it belongs to; one that nobody put in words makes a task of its own. Said again, it makes none."""
    done: dict[str, Task] = {}
    for value in spoken.values:
        if value.kind != "torque" or value.quoted or value.item is None:
            continue
        if value.item in done:
            done[value.item].values.append(value)
            continue
        task = _tightening(spoken, tasks, value)
        if task is None:
            task = Task(value.start_token, value.end_token, Deed(("tighten",), "tighten"), "", _plural(value.item), [], False, "value", True)
            tasks.append(task)
        task.thing, task.torque, task.items = f"the {value.item}", value.shown, (value.item,)
        task.tails = [tail for tail in task.tails if not tail.endswith(value.shown)]
        if value not in task.values:
            task.values.append(value)
        task.end = max(task.end, value.end_token)
        done[value.item] = task


def _plural(item: str) -> bool:
    return item.split(",")[0].endswith("s")


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


def _place_sizes(spoken: Spoken, tasks: list[Task]) -> None:
    """Every tool size at the nearest action of its utterance, or at the fastener named beside it."""
    held = {id(size) for task in tasks for size in task.sizes}
    for value in spoken.values:
        if value.kind != "tool_size" or value.quoted or id(value) in held:
            continue
        near = [task for task in tasks if not task.negative and task.what.action in SIZED and not task.sizes and _distance(task, value) <= NEAR_SIZE and _same_utterance(spoken, task.start, value.start_token)]
        if near:
            min(near, key=lambda task: _distance(task, value)).sizes.append(value)
        else:
            task = _undoing(spoken, tasks, value)
            if task is not None:
                tasks.append(task)


def _distance(task: Task, value: ValueAt) -> int:
    return max(0, task.start - value.end_token, value.start_token - task.end)


def _undoing(spoken: Spoken, tasks: Sequence[Task], value: ValueAt) -> Task | None:
    """A fastener named with its size while things come apart: it is undone."""
    before = [task for task in tasks if task.start < value.start_token and task.what.action in TAKING | FITTING]
    last = max(before, key=lambda task: task.start) if before else None
    if last is None or last.what.action not in TAKING:
        return None
    near = [s for s in spoken.sightings if s.kind == "fastener" and max(s.start - value.end_token, value.start_token - s.end) <= 8 and _same_utterance(spoken, s.start, value.start_token)]
    if not near:
        return None
    sighting = min(near, key=lambda s: abs(s.start - value.start_token))
    name = display(spoken, sighting)
    start, end = min(sighting.start, value.start_token), max(sighting.end, value.end_token)
    return Task(start, end, Deed(("undo",), "loosen"), f"the {name}", _plural(name), [], False, "value", False, (name,), [value], [value])
