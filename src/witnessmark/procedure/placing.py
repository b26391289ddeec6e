"""Steps put where they belong when the speaker says that they were done too late."""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.language.words import singular
from witnessmark.procedure.lexicon import deed, kinds
from witnessmark.procedure.order import Misplaced
from witnessmark.procedure.spoken import Spoken, closed_words
from witnessmark.procedure.steps import Draft, draft_of

BACK = 200.0  # seconds back within which the step is looked for that it belongs before
SAID_AGAIN = 24  # tokens after a remark within which it is said what is to be done first
DEFAULT_BACK = 60.0  # where nothing is found: before what was done in this time


@dataclass(frozen=True, slots=True)
class Placed:
    """A step where it belongs. shown: seconds at which the recording shows it, None where it stands as shown."""

    draft: Draft
    shown: float | None


def place(spoken: Spoken, drafts: Sequence[Draft], misplaced: Sequence[Misplaced]) -> tuple[Placed, ...]:
    """All steps in the order to do them."""
    order = [Placed(draft, None) for draft in drafts]
    for remark in misplaced:
        _move(spoken, order, remark)
    return tuple(order)


def _move(spoken: Spoken, order: list[Placed], remark: Misplaced) -> None:
    """Put what a remark is about before what it names: the step that does it, or one of its own."""
    at = spoken.speech.tokens[remark.start].start
    draft = draft_of(spoken, [remark.task]) if remark.task is not None else None
    if draft is None:
        return
    same = next((n for n, p in enumerate(order) if p.shown is None and _tells(p.draft, remark)), None)
    if same is not None:
        draft = order.pop(same).draft
    target = _target(spoken, order, remark, at)
    order.insert(target, Placed(draft, at))


def _tells(draft: Draft, remark: Misplaced) -> bool:
    """Whether a step is the one a remark is about: told inside it, or again right after it."""
    if remark.start <= draft.start_token < remark.end:
        return True
    task = draft.tasks[0] if len(draft.tasks) == 1 else None
    after = remark.end <= draft.start_token < remark.end + SAID_AGAIN
    if not after or task is None or remark.task is None:
        return False
    return (task.what.words, task.thing) == (remark.task.what.words, remark.task.thing)


def _target(spoken: Spoken, order: Sequence[Placed], remark: Misplaced, at: float) -> int:
    """Index of the step that it belongs before."""
    tokens = spoken.speech.tokens
    earlier = [
        n
        for n, p in enumerate(order)
        if p.draft.start_token < remark.start and at - tokens[p.draft.start_token].start < BACK
    ]
    deeds = {base for word in remark.ahead_of if (base := kinds(word).verb)}
    actions = {found.action for base in deeds if (found := deed(base)) is not None}
    nouns = {singular(word) for word in remark.ahead_of if word not in closed_words() and len(word) > 2}
    scored = []
    for n in earlier:
        tasks = order[n].draft.tasks
        verbs = {word for task in tasks for word in task.what.words[:1]}
        things = {singular(word.strip(".,").lower()) for word in order[n].draft.text.split()}
        score = (
            2 * bool(verbs & deeds)
            + 1 * bool({task.what.action for task in tasks} & actions)
            + 2 * bool(things & nouns)
        )
        if score:
            scored.append((score, n))
    if scored:
        return max(scored)[1]
    recent = [n for n in earlier if at - tokens[order[n].draft.start_token].start < DEFAULT_BACK]
    if recent:
        return recent[0]
    return next((n for n, p in enumerate(order) if p.draft.start_token >= remark.start), len(order))
