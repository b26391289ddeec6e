"""Values other than torque that were said without a verb: pressures, gaps, lengths, grades, times to check again."""

from collections.abc import Iterator, Sequence

from witnessmark.language.words import singular
from witnessmark.procedure.full_names import bare_item
from witnessmark.procedure.lexicon import Deed, phrase_table, word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.names import read_name
from witnessmark.procedure.often import done_often, kept_up
from witnessmark.procedure.spoken import Spoken, is_plural
from witnessmark.procedure.talk import recap_start
from witnessmark.procedure.task import Task

SET = ("pressure", "grade", "capacity", "interval")  # what was read off tells nothing of what to do
OFTEN_BACK = 12  # tokens back within which a verb tells what is done every so often
BOUNDS = {"min": ("at least", "minimum"), "max": ("at most", "within")}  # as printed: as told, the word that tells it


def measure_tasks(spoken: Spoken, tasks: Sequence[Task]) -> list[Task]:
    """Tasks for the values that no task holds yet, one an item and kind."""
    recap = recap_start(spoken)
    held = {id(value) for task in tasks for value in task.values}
    done: set[tuple[str, str]] = set()
    found: list[Task] = []
    for value in spoken.values:
        if value.kind == "capacity" and value.item is None and not value.quoted and id(value) not in held:
            found += _poured(spoken, value)
        if value.kind == "interval" and id(value) not in held and value.property != "interval":
            again = done_often(spoken, [*tasks, *found], value)
            found += [again] if again is not None else []
            continue
        if value.kind in ("torque", "tool_size") or value.item is None or id(value) in held:
            continue
        if value.quoted and not (value.measured and (value.kind not in SET or _put_in(spoken, value))):
            continue
        if (value.kind, value.item) in done or value.start_token >= recap:
            continue
        for task in _told(spoken, value, tasks):
            done.add((value.kind, value.item))
            found.append(task)
    return _one_use(found)


def _put_in(spoken: Spoken, value: ValueAt) -> bool:
    """ "I put 24 pounds in the fronts": a pressure that was not read off but set."""
    before = spoken.speech.lemmas[max(0, value.start_token - 4) : value.start_token]
    return value.kind == "pressure" and bool({"put", "set", "pump", "air", "inflate"} & set(before))


def _told(spoken: Spoken, value: ValueAt, tasks: Sequence[Task]) -> Iterator[Task]:
    item = value.item or ""
    if value.kind == "interval":
        bare = bare_item(item)
        yield from _again(spoken, value, bare, tasks)
        return
    before = spoken.texts[
        max(spoken.utterances[spoken.utterance_of[value.start_token]].start, value.start_token - 14) : value.start_token
    ]
    if ({"if", "would", "'d"} & set(before) and not value.measured) or {"by", "not"} <= set(before):
        return
    kind = (
        "clearance"
        if value.kind == "pressure" and not {"tire", "tyre", "tires", "tyres"} & set(item.split())
        else value.kind
    )
    templates = phrase_table("measures", "templates")
    template = (templates.get(value.property) if kind == value.kind else None) or templates.get(kind)
    if template is None or not _measures(item, value.kind) or _only_rated(value):
        return
    if value.kind == "capacity":
        utterance = spoken.utterances[spoken.utterance_of[value.start_token]]
        words = set(
            spoken.texts[max(utterance.start, value.start_token - 12) : min(utterance.end, value.end_token + 8)]
        )
        if not words & set(phrase_table("measures", "filling")["words"]) or words & {"left", "out", "drips"}:
            return
    if (
        value.kind in ("grade", "capacity")
        and singular(item.split()[-1]) in phrase_table("measures", "filled")["words"]
    ):
        template = ["fill with", *template[1:]]
    shown = _bound_told(value.shown, template[2])
    plural = is_plural(item.split()[-1]) and item.split()[-1] not in ("gas", "brass")
    verb, thing, tail, action = (part.format(item=item, value=shown) for part in template)
    thing = thing.replace(" gap gap", " gap")
    yield _task(
        value,
        verb,
        thing,
        tail.replace("is ", "are ", 1)
        if plural and tail.startswith("is ")
        else tail.replace("measures", "measure")
        if plural
        else tail,
        action,
    )


def _again(spoken: Spoken, value: ValueAt, bare: str, tasks: Sequence[Task]) -> Iterator[Task]:
    """What the table has done after a time, or every so often, where its name or a verb just said tells what."""
    before = spoken.texts[max(0, value.start_token - 6) : value.start_token]
    if not bare:
        return
    if "after" in before:
        yield _task(value, "check", f"the {bare}", f"again after {value.shown}", "inspect")
    elif "every" in before and value.property == "interval":
        done = phrase_table("measures", "every")
        said = spoken.speech.lemmas[max(0, value.start_token - OFTEN_BACK) : value.start_token]
        name = (value.item or "").split()
        verbs = [word for word in reversed(said) if word not in name]  # a "wash filter" is not washed for its name
        told = next((done[word] for word in [*name[-1:], *verbs] if word in done), None)
        named = singular(spoken.text(value.start_token - 2)) == singular(bare.split()[-1])
        if told is None and named:  # "filters every three months"
            told = kept_up(tasks, bare, value)
            if told is None and singular(bare.split()[-1]) in phrase_table("measures", "filled")["words"]:
                told = ("change", "fit")
        if told is not None:
            yield _task(value, told[0], f"the {bare}", f"every {value.shown.removeprefix('1 ')}", told[1])


def _poured(spoken: Spoken, value: ValueAt) -> Iterator[Task]:
    """ "I pour three litres in", "four litres straight in the drum": an amount of what the table does not know."""
    low = max(spoken.utterances[spoken.utterance_of[value.start_token]].start, value.start_token - 8)
    i = value.end_token
    what = ""
    if spoken.text(i) == "of" and (name := read_name(spoken, i + 1)) is not None and not name.vague:
        i, what = name.end, f" of {name.text.removeprefix('the ').removeprefix('some ')}"
    i += spoken.text(i) in ("straight", "right", "just", "back")
    into = spoken.text(i) in ("in", "into") and not spoken.stops_before(i)
    place = read_name(spoken, i + 1) if into and not spoken.stops_before(i + 1) else None
    pours = "pour" in spoken.speech.lemmas[low : value.start_token]
    if place is not None and not place.vague and (pours or place.sightings):
        yield _task(value, "pour", f"{value.shown}{what}", f"into {place.text}", "fill")
    elif pours and into:
        yield _task(value, "pour in", f"{value.shown}{what}", "", "fill")


def _measures(item: str, kind: str) -> bool:
    """Whether a thing can have such a value: only what flows is poured, and of a fastener only torques are told."""
    words = {singular(word) for word in item.replace(",", "").split()}
    if kind in ("grade", "capacity"):
        return bool(words & set(phrase_table("measures", "fluids")["words"]))
    *before, head = item.split(",")[0].split()
    placed = bool(set(before) & word_set("prepositions"))  # "thread above the nut" is a length, not a nut
    return placed or singular(head) not in phrase_table("verbs", "fasteners")["heads"]


def _only_rated(value: ValueAt) -> bool:
    """Whether a value only says what a thing is made for: a fuse of 70 A, mains of 230 V. What is measured has bounds."""
    rated = value.kind in phrase_table("measures", "rated")["kinds"]
    return rated and "–" not in value.shown and value.shown.split()[0] not in BOUNDS


def _bound_told(shown: str, tail: str) -> str:
    """A bound in words: a reader takes "22 mm" for a target, where "at least 22 mm" was meant."""
    bound, _, figure = shown.partition(" ")
    if bound not in BOUNDS:
        return shown
    word, told_by = BOUNDS[bound]
    return figure if told_by in tail else f"{word} {figure}"


def _task(value: ValueAt, verb: str, thing: str, tail: str, action: str) -> Task:
    return Task(
        value.start_token,
        value.end_token,
        Deed((verb,), action),
        thing,
        False,
        [tail],
        False,
        "value",
        True,
        (value.item or "",),
        [value],
    )


def _one_use(tasks: list[Task]) -> list[Task]:
    """Grade and capacity of one fluid said together are one instruction: "use 1.4 L of 10W-30 engine oil"."""
    kept: list[Task] = []
    for task in tasks:
        value = task.values[0]
        twin = next(
            (
                t
                for t in kept
                if t.what.action == task.what.action == "fill"
                and abs(t.start - task.start) < 40
                and t.values[0].kind != value.kind
            ),
            None,
        )
        if twin is None:
            kept.append(task)
            continue
        grade, capacity = (twin.values[0], value) if value.kind == "capacity" else (value, twin.values[0])
        twin.thing = f"{capacity.shown} of {grade.shown} {grade.item}"
        twin.values.append(value)
    return kept
