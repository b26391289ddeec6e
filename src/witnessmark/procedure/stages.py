"""Whether things come apart or together at a place of the recording."""

from collections.abc import Iterable

from witnessmark.procedure.lexicon import Deed, word_set
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.task import FITTING, TAKING, Task

BACK, AHEAD = 110, 12  # tokens before and behind a place whose deeds tell what is done there
MOST = 5  # deeds that are looked at, nearest first
TORQUES_BACK, TORQUES_AHEAD = 40, 25  # tokens within which a torque tells that things go together
HALF = 0.45  # share of a recording after which things rather go together
NO_STAGE = ("put", "use", "start")  # verbs that are said while things come apart too


def comes_apart(spoken: Spoken, tasks: Iterable[Task], at: int, item: str | None = None) -> bool:
    """Whether things come apart rather than together at a token, by what is done around it, by the torques said
    there and by its place in the recording. item: what is spoken of, which its own torque ties to fitting.
    """
    around = [task for task in tasks if at - BACK <= task.start <= at + AHEAD and _tells(task)]
    recent = sorted(around, key=lambda task: abs(task.start - at))[:MOST]
    lean = sum(1 if task.what.action in TAKING else -1 for task in recent)
    torques = [value for value in spoken.values if value.kind == "torque" and not value.quoted]
    near = sum(at - TORQUES_BACK <= value.start_token <= at + TORQUES_AHEAD for value in torques)
    own = [value.start_token for value in torques if value.item == item and item is not None]
    told = (3 if own[0] > at + TORQUES_AHEAD else -3) if own else 0
    return lean + told + 4 * (HALF - at / len(spoken.texts)) + (1 - min(near, 3)) > 0


def _tells(task: Task) -> bool:
    return (
        task.what.action in TAKING | FITTING
        and not task.negative
        and task.what.words[0] not in NO_STAGE
        and task.source not in ("value", "count")
    )


def tell_fitted(spoken: Spoken, tasks: Iterable[Task]) -> None:
    """Tell as fitted what goes up or comes first while things go together: "up goes the yoke", "inner race first"."""
    tasks = list(tasks)
    for task in tasks:
        if task.source == "list" and comes_apart(spoken, tasks, task.start):
            task.what = Deed(("remove",), "remove")
        if task.source != "thing" or not task.thing:
            continue
        if _laid_back(spoken, tasks, task) and comes_apart(spoken, tasks, task.start):
            task.what = Deed(("pull", "back"), "move")
        elif _goes_up(spoken, task) and not comes_apart(spoken, tasks, task.start):
            task.what = Deed(("refit",), "fit")
        elif task.what.words == ("remove",) and task.tails == ["first"] and not comes_apart(spoken, tasks, task.start):
            task.what = Deed(("fit",), "fit")


def _laid_back(spoken: Spoken, tasks: Iterable[Task], task: Task) -> bool:
    """Whether a thing goes back that was not taken off before: "rubber boot back" is pulled back out of the way."""
    alone = task.what.words == ("refit",) and not task.tails and spoken.text(task.end - 1) == "back"
    head, goes = task.thing.split()[-1], {"goes", "go", "went"} & set(spoken.texts[task.start : task.end])
    return (
        alone
        and not goes
        and not any(
            done.start < task.start and done.what.action in TAKING and done.thing.split()[-1:] == [head]
            for done in tasks
        )
    )


def _goes_up(spoken: Spoken, task: Task) -> bool:
    """Whether a thing is told to go up, and no lid or machine is lifted."""
    head, said = task.thing.split()[-1], set(spoken.texts[task.start : task.end])
    away = bool(said & {"come", "comes", "coming"}) or any(tail.startswith("toward") for tail in task.tails)
    return task.what.words == ("raise",) and not away and head not in word_set("machines") | word_set("lifted")


def built_so(spoken: Spoken, tasks: Iterable[Task], task: Task) -> bool:
    """Whether "the lead goes through the wall" tells how the machine is built: while things come apart it does.

    "The cover, four of these" tells it while things go together.
    """
    if task.source == "number":
        return not comes_apart(spoken, tasks, task.start)
    said = spoken.texts[task.start : task.end]
    along = any(tail.startswith(("through ", "round ", "around ", "along ", "over ")) for tail in task.tails)
    told = task.source == "thing" and task.what.words == ("put",) and ("goes" in said or "go" in said)
    return told and along and comes_apart(spoken, tasks, task.start)
