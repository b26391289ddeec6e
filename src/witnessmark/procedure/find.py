"""The procedure of a recording, from its speech, the things named and the values said."""

from collections.abc import Sequence

from witnessmark.language.speech import Speech
from witnessmark.procedure.actions import find_actions
from witnessmark.procedure.inventory import tool_lists
from witnessmark.procedure.measures import measure_tasks
from witnessmark.procedure.model import Chapter, Procedure, Step, ValueAt
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.steps import Draft, draft_steps
from witnessmark.procedure.talk import find_talk, remarks
from witnessmark.procedure.tasks import make_tasks
from witnessmark.reading.sightings import Sighting


def find_procedure(speech: Speech, sightings: Sequence[Sighting], values: Sequence[ValueAt]) -> Procedure:
    """Steps in the order to do them, chapters, remarks on order, and the talk kept out."""
    spoken = Spoken(speech, tuple(sightings), tuple(values))
    talk = find_talk(spoken)
    tasks = make_tasks(spoken, find_actions(spoken), talk)
    tasks = sorted([*tasks, *measure_tasks(spoken, tasks)], key=lambda task: task.start)
    tasks = [task for task in tasks if not any(start <= task.start < end for start, end in tool_lists(spoken))]
    drafts = draft_steps(spoken, tasks)
    steps = tuple(_step(spoken, draft) for draft in drafts)
    return Procedure(steps, (Chapter(0.0, "Introduction"),), (), remarks(spoken, talk))


def _step(spoken: Spoken, draft: Draft) -> Step:
    tokens = spoken.speech.tokens
    items = tuple(dict.fromkeys(item for task in draft.tasks for item in task.items))
    values = tuple(dict.fromkeys(value.mention_id for task in draft.tasks for value in (*task.values, *task.sizes)))
    return Step(
        tokens[draft.start_token].start,
        tokens[max(task.end for task in draft.tasks) - 1].end,
        draft.start_token,
        draft.text,
        draft.tasks[0].what.action,
        items,
        values,
        0,
        None,
        draft.warned,
    )
