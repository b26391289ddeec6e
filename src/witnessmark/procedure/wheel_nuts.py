"""Wheel nuts and bolts told just before the machine goes up: on the ground they are cracked loose, and no more.

Whoever takes them out there has the machine fall off its wheel when the jack lifts it.
"""

from collections.abc import Sequence

from witnessmark.procedure.lexicon import Deed, word_set
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.task import Task

SOON = 120  # tokens within which the machine goes up
AROUND = 12  # tokens around in which it is said how far
HOW_FAR = ("half a turn", "quarter turn", "half turn", "quarter of a turn", "a turn")


def loosen_on_the_ground(spoken: Spoken, tasks: Sequence[Task]) -> None:
    """Tell as loosened what would be removed of wheel nuts before the machine is raised. tasks: in order of start."""
    raised = [task.start for task in tasks if _raises(task)]
    for task in tasks:
        told = task.what.action == "remove" and not task.negative and _of_a_wheel(task)
        if not told or not raised or not 0 < raised[0] - task.start <= SOON:
            continue
        task.what = Deed(("loosen",), "loosen")
        said = f" {' '.join(spoken.texts[max(0, task.start - AROUND) : task.end + AROUND])} "
        turn = next((form for form in HOW_FAR if f" {form} " in said), "")
        if not any("turn" in tail for tail in task.tails):
            task.tails.append(turn or "on the ground")


def _of_a_wheel(task: Task) -> bool:
    return any(task.thing.endswith(name) for name in word_set("wheel_fasteners"))


def _raises(task: Task) -> bool:
    """Whether a task puts a jack or stands under the machine, or lifts it."""
    said = {word for text in (task.thing, *task.tails, *task.what.words) for word in text.split()}
    return not task.negative and bool(said & word_set("raised_on")) and task.what.action in ("lift", "fit", "support")
