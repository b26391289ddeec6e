"""Actions made complete: the thing found, the values in place."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from witnessmark.language.words import singular
from witnessmark.procedure.deed import Action
from witnessmark.procedure.focus import Known, in_focus, known_things, refers
from witnessmark.procedure.lexicon import Deed, phrase_table, word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.names import read_name
from witnessmark.procedure.spoken import Spoken, display, is_plural
from witnessmark.procedure.talk import Talk
from witnessmark.reading.sightings import Sighting

TAKING = frozenset({"remove", "loosen", "disconnect", "drain", "open"})
FITTING = frozenset({"fit", "tighten", "connect", "fill", "close", "apply", "lubricate"})
SIZED = TAKING | FITTING | {"adjust", "hold", "inspect", "turn"}
RECALL = 220  # tokens back within which a full name is remembered
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
    tasks = [
        task
        for action in actions
        if action.start not in masked and (task := task_of(spoken, action, things)) is not None
    ]
    _place_torques(spoken, tasks)
    tasks += count_tasks(spoken, tasks)
    _place_sizes(spoken, tasks)
    for task in tasks:
        _tell_thread(spoken, task)
    return sorted(tasks, key=lambda task: task.start)


def _tell_thread(spoken: Spoken, task: Task) -> None:
    """A left-hand thread is told with the turning that it turns round."""
    turned = ("clockwise" in task.tails and task.what.action == "loosen") or (
        {"anticlockwise", "counterclockwise"} & set(task.tails) and task.what.action in ("tighten", "fit")
    )
    said = " ".join(spoken.texts[max(0, task.start - 40) : task.end + 12])
    if turned and ("left hand thread" in said or "left handed thread" in said or "reverse thread" in said):
        task.tails.append("(left-hand thread)")


def task_of(spoken: Spoken, action: Action, things: Sequence[Known]) -> Task | None:
    """An action with its thing; None where that cannot be told."""
    thing, plural = "", False
    items = tuple(dict.fromkeys(sighting.item or sighting.name for sighting in action.sightings))
    if action.thing is not None and not action.thing.vague:
        thing, plural = (
            fuller(spoken, action.thing.text, action.thing.start, action.thing.sightings),
            action.thing.plural,
        )
    elif refers(action.thing) and not (
        action.thing is None and (len(action.what.words) > 2 or _plain(action) or action.what.words == ("check that",))
    ):
        known = in_focus(things, action, spoken.machine)
        if known is None:
            return None
        thing, plural = _pointed(action, known), known.plural
        items = (known.name, *items)
        item = next((value.item for value in action.tail.values if value.item and value.kind == "interval"), None)
        if item is not None:
            thing = f"the {bare_item(item)}"
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
    if action.tail.particle and action.tail.particle not in action.what.words:
        task.tails.insert(0, action.tail.particle)
    return task


def bare_item(item: str) -> str:
    """A table's name without the words that say what its value is: "wheel nut recheck" is of the wheel nut."""
    words = [word for word in item.split() if word not in phrase_table("measures", "kinds_in_names")["words"]]
    return " ".join(words) or item


def _pointed(action: Action, known: Known) -> str:
    """The thing in focus, with what tells it from its like: "the middle one" of the nuts is "the middle nut"."""
    which = action.thing.which if action.thing else ""
    if not which:
        return known.text
    head = known.name.split(",")[0].split()[-1]
    plural = action.thing is not None and action.thing.plural
    return f"the {which} {head if plural else singular(head)}"


def fuller(spoken: Spoken, text: str, at: int, sightings: Sequence[Sighting]) -> str:
    """A short name told in full: "the band" where only one band was named before, "the screws" of the part just named."""
    *before, head = text.split()
    if any(word not in word_set("short_leads") for word in before) or any(s.item for s in sightings):
        return text
    count = " ".join(word for word in before if word not in ("the", "a", "an", "that"))
    lead = f"the {count}".strip() if before and before[0] not in word_set("kept_articles") else " ".join(before)
    known = spoken.full_names.get(singular(head), ())
    recent = [(place, name) for place, name in known if at - RECALL <= place < at]
    names = {name for _, name in recent}
    if singular(head) in word_set("generic_fasteners"):
        part = _part_before(spoken, at)
        tabled = _tabled(spoken, at, singular(head))
        if tabled:
            return f"the {tabled}"
        if part and part.split()[-1] != singular(head):
            return f"{lead} {part} {head}"
    if len(names) == 1:
        name = recent[-1][1]
        return (
            f"{lead} {name}"
            if is_plural(name) == is_plural(head)
            else f"{lead} {name}"
            if not is_plural(head)
            else text
        )
    return text


def _tabled(spoken: Spoken, at: int, head: str) -> str | None:
    """The one name of the table with this head whose other words were said close by more than any other's."""
    near = set(spoken.speech.lemmas[max(0, at - 25) : at + 12])
    scored = []
    for name in spoken.table_names:
        words = {singular(word) for word in name.replace(",", "").split()}
        if head in words:
            scored.append((len((words - {head}) & near), name))
    scored.sort(reverse=True)
    if not scored or scored[0][0] == 0 or (len(scored) > 1 and scored[1][0] == scored[0][0]):
        return None
    return scored[0][1]


def _part_before(spoken: Spoken, at: int) -> str | None:
    """The part just named in the same utterance."""
    start = spoken.utterances[spoken.utterance_of[at]].start
    near = [s for s in spoken.sightings if s.kind == "part" and max(start, at - 18) <= s.start and s.end <= at]
    return singular_of(display(spoken, near[-1])) if near else None


def singular_of(name: str) -> str:
    """A name with its last word in the singular."""
    *rest, head = name.split()
    return " ".join([*rest, singular(head)])


def _plain(action: Action) -> bool:
    if (
        action.thing is None
        and action.tail.phrases
        and action.tail.phrases[0].startswith(("on ", "against ", "down on "))
    ):
        return True
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
            task = Task(
                value.start_token,
                value.end_token,
                Deed(("tighten",), "tighten"),
                "",
                _plural(value.item),
                [],
                False,
                "value",
                True,
            )
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
        near = [
            task
            for task in tasks
            if not task.negative
            and task.what.action in SIZED
            and not task.sizes
            and _distance(task, value) <= NEAR_SIZE
            and _same_utterance(spoken, task.start, value.start_token)
        ]
        tightened = [
            task
            for task in tasks
            if task.torque and not task.sizes and _same_utterance(spoken, task.start, value.start_token)
        ]
        if near:
            min(near, key=lambda task: _distance(task, value)).sizes.append(value)
        elif (tightened and comes_apart(spoken, tasks, value.start_token) is False) or len(tightened) == 1:
            min(tightened, key=lambda task: _distance(task, value)).sizes.append(value)
        else:
            task = _undoing(spoken, tasks, value)
            if task is not None:
                tasks.append(task)


def _distance(task: Task, value: ValueAt) -> int:
    return max(0, task.start - value.end_token, value.start_token - task.end)


def _undoing(spoken: Spoken, tasks: Sequence[Task], value: ValueAt) -> Task | None:
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
    if count in word_set("numbers") and _plural(name) and spoken.value_over.get(sighting.start - 1) is None:
        thing = thing.replace("the ", f"the {count} ", 1)
    if sighting.item is None and spoken.text(sighting.end) in word_set("fastener_places"):
        place = read_name(spoken, sighting.end + 1)
        if place is not None and not place.vague and place.sightings:
            thing = f"the {count} {name}" if count in word_set("numbers") else f"the {name}"
            thing = f"{thing} {spoken.text(sighting.end)} {place.text}"
    return Task(
        start,
        end,
        Deed(("undo",), "loosen"),
        thing,
        _plural(name),
        [],
        False,
        "value",
        False,
        (name,),
        [value],
        [value],
    )


def comes_apart(spoken: Spoken, tasks: Iterable[Task], at: int) -> bool:
    """Whether things come apart rather than together at a token, by what was done just before and is about to be done."""
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
    return Task(
        value.start_token,
        value.end_token,
        Deed(("undo",), "loosen"),
        f"the {name}",
        _plural(name),
        turn[:1],
        False,
        "value",
        False,
        (name,),
        [value],
        [value],
    )


def _counted(spoken: Spoken, value: ValueAt) -> Task | None:
    """ "Three holding it to the base, T20": a count and a size where the fastener itself is left unsaid."""
    utterance = spoken.utterances[spoken.utterance_of[value.start_token]]
    for i in range(max(utterance.start, value.start_token - 10), value.start_token):
        text, follows = spoken.texts[i], spoken.text(i + 1)
        counted = text in word_set("counts") and spoken.value_over.get(i) is None
        if counted and not is_plural(follows) and follows not in word_set("no_fasteners"):
            head = "screws" if value.shown[0] in "TE" else "bolts"
            part = _part_before(spoken, value.start_token)
            thing = f"the {text} {part} {head}" if part else f"the {text} {head}"
            return Task(
                i,
                value.end_token,
                Deed(("undo",), "loosen"),
                thing,
                True,
                [],
                False,
                "value",
                False,
                (),
                [value],
                [value],
            )
    return None
