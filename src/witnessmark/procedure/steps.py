"""Tasks gathered into steps: what is done in one go is one step, what is said again is not said twice."""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.procedure.full_names import singular_of
from witnessmark.procedure.lexicon import word_set
from witnessmark.procedure.rewrite import same_verb, sentence, warning
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.task import FITTING, TAKING, Task
from witnessmark.procedure.telling import chance

PARTED = 0.6  # an utterance that begins as surely as this begins a new step
MOST = 4  # tasks in one step
CLOSE = 5.0  # seconds within which a new sentence still belongs to the step that the one before began
FAR = 12.0  # seconds between two tasks of one step
SLIGHT = 0.27  # chance of being told as a step of its own under which one is joined to its neighbour
UNCLEAR = "The video does not say clearly that its torque is for {thing}: look it up in the workshop manual."
SOON = 24  # tokens behind a step within which what is not to be done is its warning
LONG, BREATH = 8.0, 1.0  # seconds that a step of two tasks lasts before a pause of a breath ends it
NEAR = 4.0  # seconds between a slight step and the one it is joined to


@dataclass(frozen=True, slots=True)
class Draft:
    """A step before its chapter is known."""

    tasks: tuple[Task, ...]
    warnings: tuple[Task, ...]
    text: str
    warned: tuple[str, ...]

    @property
    def start_token(self) -> int:
        """First token of its first task."""
        return (self.tasks or self.warnings)[0].start


def draft_steps(spoken: Spoken, tasks: Sequence[Task]) -> tuple[Draft, ...]:
    """Steps in the order said."""
    groups = _gathered(spoken, done_in_one_go(spoken, tasks))
    drafts = [draft_of(spoken, group) for group in groups if not _poor(group)]
    return tuple(_merged([draft for draft in drafts if draft is not None]))


def done_in_one_go(spoken: Spoken, tasks: Sequence[Task]) -> list[list[Task]]:
    """Tasks by what is told without a break."""
    groups: list[list[Task]] = []
    for task in tasks:
        if groups and _goes_on(spoken, groups[-1], task):
            groups[-1].append(task)
        else:
            groups.append([task])
    return _cut(spoken, groups)


def _goes_on(spoken: Spoken, group: Sequence[Task], task: Task) -> bool:
    """Whether a task belongs to the step that the ones before it began."""
    last = group[-1]
    tokens = spoken.speech.tokens
    if tokens[task.start].start - tokens[last.end - 1].end > FAR:
        return False
    if task.what.action == "wait" and not task.thing:
        return True
    if len([t for t in group if not t.negative]) >= MOST or _tries(task) != _tries(last):
        return False
    a, b = spoken.utterance_of[last.start], spoken.utterance_of[task.start]
    parted = max((spoken.utterances[n].parted for n in range(a + 1, b + 1)), default=0.0)
    if _like_measures(last, task) or (_measures(last, task) and _gap(spoken, group, [task]) <= NEAR):
        return True
    if parted >= PARTED:
        return False
    if (_measured(task) or _measured(last)) and not (_alike(group, task) or _like_measures(last, task)):
        return False
    return (
        parted < 0.35
        or _alike(group, task)
        or (parted < 0.4 and tokens[task.start].start - tokens[group[0].start].start < CLOSE)
    )


def _gathered(spoken: Spoken, groups: Sequence[list[Task]]) -> list[list[Task]]:
    """Groups with the slight ones joined to the nearer neighbour: "remove the wheel" alone is hardly a step."""
    found: list[list[Task]] = []
    reached = 0.0  # how far the last one found reaches
    for n, group in enumerate(groups):
        reach = _reach(spoken, group)
        before = _gap(spoken, found[-1], group) if found else FAR
        after = _gap(spoken, group, groups[n + 1]) if n + 1 < len(groups) else FAR
        room = bool(found) and _joins(found[-1], group, before)
        if room and (before < reached or before < min(after, reach)):
            found[-1] += group
            reached = _reach(spoken, found[-1])
        else:
            found.append(list(group))
            reached = reach
    return found


def _joins(first: Sequence[Task], second: Sequence[Task], gap: float) -> bool:
    """Whether two groups may be one step. A tightening and a trial of the work stand alone, what is taken off long
    before is not put on in the same step, and nothing is told twice. gap: seconds between the two.
    """
    last, task = first[-1], second[0]
    again = (last.what, last.thing) == (task.what, task.thing)
    alone = any(each.what.action == "tighten" or _tries(each) for each in (last, task))
    actions = {each.what.action for each in (*first, *second) if not each.negative}
    turns = gap > NEAR and bool(actions & TAKING) and bool(actions & FITTING)
    return not (alone or again or turns) and len(first) + len(second) <= MOST


def _cut(spoken: Spoken, groups: Sequence[Sequence[Task]]) -> list[list[Task]]:
    """Groups that went on too long, parted: behind a tightening, and where much was done and a pause follows."""
    found: list[list[Task]] = []
    for group in groups:
        found.append([])
        for task in group:
            if found[-1] and _ends_before(spoken, found[-1], task):
                found.append([])
            found[-1].append(task)
    return found


def _ends_before(spoken: Spoken, group: Sequence[Task], task: Task) -> bool:
    """Whether a step is complete before a task of another thing."""
    last = group[-1]
    if task.thing and any(done.thing == task.thing for done in group):
        return False
    if last.what.action == "tighten" and task.what.action != "tighten" and not task.negative:
        return True
    tokens = spoken.speech.tokens
    lasted = tokens[task.start].start - tokens[group[0].start].start
    several = sum(not done.negative for done in group) > 1
    return several and lasted > LONG and _gap(spoken, group, [task]) > BREATH and not same_verb(last, task)


def _reach(spoken: Spoken, group: Sequence[Task]) -> float:
    """Seconds within which a group that tells too little to stand by itself is joined to another; 0 where it tells enough."""
    if chance(spoken, group) < SLIGHT:
        return FAR
    return NEAR if _bare(group) else 0.0


def _bare(group: Sequence[Task]) -> bool:
    """Whether a group is one verb and its thing, without where, how or how far."""
    task = group[0]
    told = task.tails or task.sizes or task.torque or task.values or task.negative
    return len(group) == 1 and not told and task.source != "value"


def _poor(group: Sequence[Task]) -> bool:
    """Whether a group is only a look at or a hold of something that was not even named: "check it"."""
    return _bare(group) and group[0].guessed and group[0].what.action in word_set("poor_alone")


def _gap(spoken: Spoken, first: Sequence[Task], second: Sequence[Task]) -> float:
    """Seconds between two groups."""
    tokens = spoken.speech.tokens
    return tokens[second[0].start].start - tokens[first[-1].end - 1].end


def _tries(task: Task) -> bool:
    """Whether a task is a trial of the finished work, which is a step of its own."""
    return task.source == "saying" and task.what.action in ("test", "bleed")


def _measured(task: Task) -> bool:
    """Whether a task only tells a value: it is no part of the work around it."""
    return task.source == "value" and task.what.action not in TAKING | FITTING - {"fill"}


def _alike(group: Sequence[Task], task: Task) -> bool:
    """Whether a task is about a thing that the step is already about."""
    return bool({name for t in group for name in _names(t)} & _names(task))


def _names(task: Task) -> set[str]:
    """The names of what a task is about, in the singular."""
    return {singular_of(name.removeprefix("the ")) for name in (*task.items, task.thing) if name}


def _like_measures(last: Task, task: Task) -> bool:
    """Whether two values are told with one verb: "check that the one is ... and the other is ..."."""
    return _measured(last) and _measured(task) and last.what.words == task.what.words


def _measures(last: Task, task: Task) -> bool:
    """Whether a value is what was just measured: "feeler gauge between the two, and you want three mil"."""
    return last.what.action == "measure" and last.source != "value" and _measured(task)


def draft_of(spoken: Spoken, group: Sequence[Task]) -> Draft | None:
    """Tasks as one step; None where nothing can be written."""
    do = tuple(task for task in group if not task.negative)
    dont = tuple(task for task in group if task.negative)
    text = sentence(spoken, do)
    warned = tuple(dict.fromkeys(w for task in dont if (w := warning(spoken, task))))
    if not text and not warned:
        return None
    warned = (*warned, *(UNCLEAR.format(thing=task.thing) for task in do if task.doubtful))
    return Draft(do, dont, text, warned)


def _alone(draft: Draft) -> bool:
    """Whether a warning stands for itself: its thing is named and where or how is told."""
    first = draft.warnings[0]
    return len(first.thing.split()) > 2 or bool(first.tails)


def _soon(last: Draft, draft: Draft) -> bool:
    """Whether what is not to be done is told right behind the step that it warns of."""
    return bool(last.tasks) and draft.start_token - max(task.end for task in last.tasks) <= SOON


def _merged(drafts: Sequence[Draft]) -> list[Draft]:
    """Warnings without a step go to the step before; a step that says the same again is left out."""
    kept: list[Draft] = []
    for draft in drafts:
        if not draft.text and _alone(draft) and not (kept and _soon(kept[-1], draft)):
            kept.append(Draft(draft.warnings, (), " ".join(draft.warned[:2]), ()))
            continue
        if not draft.text:
            if kept:
                last = kept[-1]
                kept[-1] = Draft(last.tasks, last.warnings, last.text, (*last.warned, *draft.warned))
            continue
        if any(draft.text == earlier.text for earlier in kept[-6:]):
            continue
        kept.append(draft)
    return kept
