"""Work that is told to be done again: every so often, told of the work just done ("you want to do that every spring")."""

from collections.abc import Sequence

from witnessmark.language.words import singular
from witnessmark.procedure.lexicon import Deed, phrase_table, word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.task import Task

BACK = 90  # tokens back within which work was just done
NOW = 16  # tokens within which it is still the same breath
LEAD = 6  # tokens before "every" in which "do that" may stand


def done_often(spoken: Spoken, tasks: Sequence[Task], value: ValueAt) -> Task | None:
    """The work last done, told with how often; None where no care was just taken of anything."""
    start = value.start_token
    if value.quoted or spoken.text(start - 1) != "every":
        return None
    lead = spoken.texts[max(0, start - 1 - LEAD) : start - 1]
    if not _points_back(lead):
        return None
    for task in sorted(tasks, key=lambda task: -task.start):
        if start - BACK <= task.start < start and not task.negative and task.thing:
            kept = phrase_table("measures", "kept_up").get(task.what.action)
            if kept is not None:
                return _again(task, value, kept)
    return None


def _points_back(lead: Sequence[str]) -> bool:
    """Whether "do that", "it's done" or "it's" leads to the time."""
    said = set(lead)
    does = bool(said & {"do", "doing", "done", "repeat"}) and bool(said & {"that", "this", "it", "them", "those"})
    return does or (tuple(lead[-2:]) in (("it", "'s"), ("that", "'s")) and not said & word_set("conditions"))


def _again(task: Task, value: ValueAt, kept: str) -> Task | None:
    """A task of its own, or none where it was told just now: then only how often is added."""
    often = f"every {value.shown.removeprefix('1 ')}"
    if value.start_token - task.end < NOW and not kept:
        task.tails.append(often)
        task.values.append(value)
        return None
    verb = (kept,) if kept else task.what.words
    poured = task.source == "value" and task.what.action == "fill" and task.values[0].item
    thing = f"the {task.values[0].item}" if poured else task.thing.replace("the new ", "the ", 1)
    start, end, deed = value.start_token, value.end_token, Deed(verb, "inspect")
    return Task(start, end, deed, thing, task.plural, [often], False, "value", True, task.items, [value])


def kept_up(tasks: Sequence[Task], name: str, value: ValueAt) -> tuple[str, str] | None:
    """What is done to a thing elsewhere and is to be kept up: verb and class; None where nothing is."""
    head = singular(name.split()[-1])
    table = phrase_table("measures", "kept_up")
    for task in sorted(tasks, key=lambda task: abs(task.start - value.start_token)):
        named = {singular(word) for item in (*task.items, task.thing) for word in item.split()[-1:]}
        if head in named and task.what.action in table and not task.negative:
            return table[task.what.action] or task.what.words[0], task.what.action
    return None
