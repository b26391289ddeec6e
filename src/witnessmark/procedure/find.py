"""The procedure of a recording, from its speech, the things named and the values said."""

from bisect import bisect_right
from collections.abc import Sequence

from witnessmark.language.speech import Speech
from witnessmark.procedure.actions import find_actions
from witnessmark.procedure.chapters import divide
from witnessmark.procedure.inventory import tool_lists
from witnessmark.procedure.measures import measure_tasks
from witnessmark.procedure.model import Chapter, OrderRemark, Procedure, Step, ValueAt
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

INTRODUCTION = 0.25  # share of the recording in which a list of tools ends the introduction


def find_procedure(speech: Speech, sightings: Sequence[Sighting], values: Sequence[ValueAt]) -> Procedure:
    """Steps in the order to do them, chapters, remarks on order, and the talk kept out."""
    spoken = Spoken(speech, tuple(sightings), tuple(values))
    if not speech.tokens:
        return Procedure((), (), (), ())
    actions = find_actions(spoken)
    lists = tool_lists(spoken, actions)
    notes = find_notes(spoken, lists)
    talk = (*find_talk(spoken), *(Talk(n.start_token, n.end_token, n.kind, n.start_token) for n in notes))
    tasks = make_tasks(spoken, actions, talk)
    tasks = sorted([*tasks, *measure_tasks(spoken, tasks)], key=lambda task: task.start)
    tasks = [task for task in tasks if not any(start <= task.start < end for start, end in lists)]
    misplaced = find_misplaced(spoken, actions)
    tasks = [task for task in tasks if not _aside(spoken, task, lists, misplaced)]
    drafts = draft_steps(spoken, tasks)
    marks = divide(spoken, tasks, lists)
    titles = title_chapters(spoken, [mark.token for mark in marks], tasks, lists)
    chapters = tuple(Chapter(mark.start, title) for mark, title in zip(marks, titles, strict=True))
    steps = tuple(_step(spoken, placed, chapters) for placed in place(spoken, drafts, misplaced))
    remarked = tuple(_remark(spoken, found) for found in misplaced)
    return Procedure(steps, chapters, remarked, remarks(spoken, talk), notes)


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
