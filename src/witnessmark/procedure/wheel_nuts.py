"""Wheel nuts and bolts told just before the machine goes up: on the ground they are cracked loose, and no more.

Whoever takes them out there has the machine fall off its wheel when the jack lifts it.
"""

from collections.abc import Sequence
from functools import cache

from witnessmark.procedure.lexicon import Deed, forms_among, word_set
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.task import Task

SOON = 120  # tokens within which the machine goes up
AROUND = 12  # tokens around in which it is said how far


def loosen_on_the_ground(spoken: Spoken, tasks: Sequence[Task]) -> None:
    """Tell as loosened what would be removed of wheel nuts before the machine is raised. tasks: in order of start."""
    raised = next((task.start for task in tasks if _raises(task)), 0)
    for task in tasks:
        taken = task.what.action == "remove" and not task.negative and 0 < raised - task.start <= SOON
        if not taken or not f" {task.thing}".endswith(_wheel_fasteners()):
            continue
        task.what = Deed(("loosen",), "loosen")
        if not any("turn" in tail for tail in task.tails):
            said = spoken.texts[max(0, task.start - AROUND) : task.end + AROUND]
            task.tails.append(next(iter(forms_among(said, word_set("cracked_by"))), "on the ground"))


@cache
def _wheel_fasteners() -> tuple[str, ...]:
    """Ends of the names of what holds a wheel, as words of their own: a flywheel nut is none."""
    return tuple(f" {name}" for name in sorted(word_set("wheel_fasteners")))


def _raises(task: Task) -> bool:
    """Whether a task puts a jack or stands under the machine, or lifts it."""
    said = {word for text in (task.thing, *task.tails, *task.what.words) for word in text.split()}
    return not task.negative and bool(said & word_set("raised_on")) and task.what.action in ("lift", "fit", "support")
