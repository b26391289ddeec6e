"""The procedure of a recording, from its speech, the things named and the values said."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.language.speech import Speech
from witnessmark.procedure.actions import find_actions
from witnessmark.procedure.chapters import divide
from witnessmark.procedure.cooling import cooling_tasks
from witnessmark.procedure.inventory import tool_lists
from witnessmark.procedure.measures import measure_tasks
from witnessmark.procedure.model import Chapter, Note, OrderRemark, Procedure, Step, ValueAt
from witnessmark.procedure.notes import find_notes
from witnessmark.procedure.order import Misplaced, find_misplaced
from witnessmark.procedure.placing import Placed, place
from witnessmark.procedure.rewrite import clause
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.steps import draft_steps
from witnessmark.procedure.talk import Talk, find_talk, remarks
from witnessmark.procedure.task import Task
from witnessmark.procedure.tasks import make_tasks
from witnessmark.procedure.titles import title_chapters
from witnessmark.reading.sightings import Sighting

SAME = 6  # tokens within which "let it cool" was read as a plain action too
INTRODUCTION = 0.25  # share of the recording in which a list of tools ends the introduction


@dataclass(frozen=True, slots=True)
class Survey:
    """What the speech tells of the work. tasks: in order of start. lists: tokens where the tools are listed."""

    talk: tuple[Talk, ...]
    lists: tuple[tuple[int, int], ...]
    tasks: tuple[Task, ...]
    misplaced: tuple[Misplaced, ...]
    notes: tuple[Note, ...] = ()


def find_procedure(
    speech: Speech, sightings: Sequence[Sighting], values: Sequence[ValueAt], kind: str = ""
) -> Procedure:
    """Steps in the order to do them, chapters, remarks on order, and the talk kept out. kind: of machine, as the settings tell it."""
    spoken = Spoken(speech, tuple(sightings), tuple(values), kind)
    if not speech.tokens:
        return Procedure((), (), (), ())
    found = survey(spoken)
    drafts = draft_steps(spoken, found.tasks)
    marks = divide(spoken, found.tasks, found.lists, found.talk)
    titles = title_chapters(spoken, [mark.token for mark in marks], found.tasks, found.lists)
    chapters = tuple(Chapter(mark.start, title) for mark, title in zip(marks, titles, strict=True))
    steps = tuple(_step(spoken, placed, chapters) for placed in place(spoken, drafts, found.misplaced))
    order = tuple(_remark(spoken, misplaced) for misplaced in found.misplaced)
    return Procedure(steps, chapters, order, remarks(spoken, found.talk), found.notes)


def survey(spoken: Spoken) -> Survey:
    """The work told, without what is only listed or told beside it."""
    actions = find_actions(spoken)
    lists = tool_lists(spoken, actions)
    notes = find_notes(spoken, lists)
    talk = (*find_talk(spoken), *(Talk(n.start_token, n.end_token, n.kind, n.start_token) for n in notes))
    tasks = make_tasks(spoken, actions, talk)
    cold = cooling_tasks(spoken)
    tasks = [t for t in tasks if not any(t.what.action == "wait" and abs(t.start - c.start) < SAME for c in cold)]
    tasks = sorted([*tasks, *measure_tasks(spoken, tasks), *cold], key=lambda task: task.start)
    tasks = [task for task in tasks if not any(start <= task.start < end for start, end in lists)]
    misplaced = find_misplaced(spoken, actions)
    return Survey(
        talk,
        lists,
        tuple(task for task in tasks if not _aside(spoken, task, lists, misplaced)),
        tuple(misplaced),
        notes,
    )


def _aside(spoken: Spoken, task: Task, lists: Sequence[tuple[int, int]], misplaced: Sequence[Misplaced]) -> bool:
    """Whether a task stands before the list of tools, where nobody works yet, or inside a remark on order."""
    if lists and task.start < lists[0][0] < len(spoken.texts) * INTRODUCTION:
        return True
    return any(found.task is not None and found.start <= task.start < found.end for found in misplaced)


def _remark(spoken: Spoken, found: Misplaced) -> OrderRemark:
    start, end = spoken.speech.span_times(found.start, found.end)
    about = clause(spoken, found.task) if found.task else ""
    return OrderRemark(start, end, spoken.speech.said(found.start, found.end), about)


def _step(spoken: Spoken, placed: Placed, chapters: Sequence[Chapter]) -> Step:
    tokens, draft = spoken.speech.tokens, placed.draft
    start = tokens[draft.start_token].start
    items = tuple(dict.fromkeys(item for task in draft.tasks for item in task.items))
    values = tuple(dict.fromkeys(value.mention_id for task in draft.tasks for value in (*task.values, *task.sizes)))
    return Step(
        start,
        tokens[max(task.end for task in draft.tasks) - 1].end,
        draft.start_token,
        draft.text,
        draft.tasks[0].what.action,
        items,
        values,
        max(0, bisect_right([chapter.start for chapter in chapters], start) - 1),
        placed.shown,
        draft.warned,
    )
