"""Where the speaker says that a step belonged earlier, which step that is, and before what it belongs."""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.actions import read_action
from witnessmark.procedure.confessions import had_done, late_task, own_deed
from witnessmark.procedure.deed import Action
from witnessmark.procedure.focus import Known, known_things
from witnessmark.procedure.lateness import left_late, past_action, phrase_at, plain_action
from witnessmark.procedure.lexicon import Deed, acting_verbs, deed, form_of, kinds, phrase_table, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.rewrite import clause
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail
from witnessmark.procedure.task import FITTING, TAKING, Task
from witnessmark.procedure.tasks import task_of

REACH = 34  # tokens after the remark within which it says what belongs first
ALREADY = 16  # tokens within which "I already did this" goes on with "before I did that"
TWICE = 25.0  # seconds within which two remarks are one


@dataclass(frozen=True, slots=True)
class Misplaced:
    """A remark on order at tokens start..end (exclusive).

    task: what belonged earlier. ahead_of: the words that say before what.
    """

    start: int
    end: int
    task: Task | None
    ahead_of: tuple[str, ...]


def find_misplaced(spoken: Spoken, actions: Sequence[Action]) -> tuple[Misplaced, ...]:
    """All remarks, in order; one that is said twice in a row counts once."""
    things = known_things(spoken, actions)
    found: list[Misplaced] = []
    for i in range(len(spoken.texts)):
        misplaced = (
            _regret(spoken, i, things)
            or _backwards(spoken, i, things)
            or _owned_up(spoken, i, things)
            or _left_out(spoken, i, things)
            or _wrong(spoken, i, things)
            or _late(spoken, i, things, bool(found) and _open(spoken, found[-1], i))
        )
        if misplaced is None:
            continue
        if found and spoken.speech.tokens[i].start - spoken.speech.tokens[found[-1].start].start < TWICE:
            if found[-1].task is None and misplaced.task is not None:
                found[-1] = Misplaced(found[-1].start, misplaced.end, misplaced.task, misplaced.ahead_of)
            continue
        found.append(misplaced)
    return tuple(found)


def _open(spoken: Spoken, last: Misplaced, index: int) -> bool:
    """Whether a remark just made has not said yet what belongs first."""
    return last.task is None and spoken.speech.tokens[index].start - spoken.speech.tokens[last.start].start < TWICE


def _until(spoken: Spoken, index: int) -> int:
    """The end of the sentence, or of the stretch of talk with what is said right after it."""
    end = index
    while end < min(len(spoken.texts), index + REACH) and spoken.texts[end] not in PUNCTUATION - {","}:
        goes_on = spoken.texts[end] == "before"
        if end > index and not goes_on and spoken.stops_before(end) and spoken.texts[end - 1] not in PUNCTUATION:
            break
        end += 1
    return end


def _ahead(spoken: Spoken, start: int, end: int) -> tuple[str, ...]:
    """The words after "before" or "while"."""
    for i in range(start, end):
        if spoken.texts[i] in ("before", "while"):
            return spoken.texts[i + 1 : min(end, i + 9)]
    return ()


def _late(spoken: Spoken, index: int, things: list[Known], owned: bool) -> Misplaced | None:
    """ "The fuel tap should have been closed first", "I've the belt off and I never marked it"."""
    end = _until(spoken, index)
    late = left_late(spoken, index, end, things, owned)
    if late is None:
        return None
    task, at = late
    return Misplaced(index, end, task, _ahead(spoken, index, end) if at == index else spoken.texts[index:at])


def _hindsight(spoken: Spoken, index: int) -> tuple[str, ...] | None:
    """ "If I had my time again I'd"."""
    said = phrase_at(spoken, index, "hindsight")
    if said is None:
        return None
    at = index + len(said)
    would = spoken.texts[at : at + 2]
    return (*said, *would) if would[:1] in (("i",), ("we",), ("you",)) and would[1:] in (("'d",), ("would",)) else None


def _regret(spoken: Spoken, index: int, things: list[Known]) -> Misplaced | None:
    """ "I should have cracked the nuts loose before I jacked it up"."""
    said = phrase_at(spoken, index, "regret") or _hindsight(spoken, index)
    if said is None:
        return None
    at = index + len(said)
    end = _until(spoken, at)
    words = set(spoken.texts[at:end])
    needed = (
        {"before"}
        if " ".join(said) in phrase_table("order", "says")["weak"]
        else set(phrase_table("order", "says")["about"])
    )
    if said[0] == "ideally":  # said without any regret too
        needed = {"before", "while"}
    while spoken.text(at) in word_set("between") and at < end:
        at += 1
    base = kinds(spoken.text(at)).verb
    plain = said[-1] in ("ought", "oughta") and form_of(spoken.text(at), base) != "past"  # "I ought to": a plan
    due = had_done(spoken, at)
    saw = spoken.text(at) in ("saw", "seen") and said[-1] == "never"
    if saw or not (words & needed or "done" in said) or plain or (due is None and base not in acting_verbs()):
        return None
    action = due or plain_action(spoken, at)
    task = task_of(spoken, action, things) if action else None
    if task is not None:
        task.tails += _before_doing(spoken, at, end, things)
    return Misplaced(index, end, task, _ahead(spoken, at, end))


def _before_doing(spoken: Spoken, start: int, end: int, things: list[Known]) -> list[str]:
    """ "Before I jacked it up" as a guide says it: "before jacking the car up"."""
    for i in range(start, end - 2):
        if spoken.texts[i] == "before" and spoken.texts[i + 1] in ("i", "we", "you"):
            base = kinds(spoken.texts[i + 2]).verb
            action = read_action(spoken, i + 2, base) if base and deed(base) else None
            task = task_of(spoken, action, things) if action else None
            if task is not None:
                from lemminflect import getInflection  # its dictionary takes a second to load

                turns = [
                    tail for tail in task.tails if task.what.action == "lift" and tail.endswith((" turn", " turns"))
                ]
                task.tails = [tail for tail in task.tails if tail not in turns]  # "before i jacked it up half a turn"
                verb, _, rest = clause(spoken, task).partition(" ")
                doing = getInflection(verb, tag="VBG")
                return [*turns, f"before {doing[0]} {rest}"] if doing else []
    return []


def _backwards(spoken: Spoken, index: int, things: list[Known]) -> Misplaced | None:
    """ "I already cut a link before I broke this nut loose": the second belonged first."""
    if spoken.texts[index] not in ("i", "we") or "already" not in spoken.texts[index + 1 : index + 4]:
        return None
    for i in range(index + 3, index + ALREADY):
        if spoken.text(i) in PUNCTUATION - {","}:
            return None
        if spoken.text(i) == "before" and spoken.text(i + 1) in ("i", "we"):
            base = kinds(spoken.text(i + 2)).verb
            if not base or form_of(spoken.text(i + 2), base) != "past":
                return None
            action = past_action(spoken, i + 2)
            end = max(_until(spoken, index), action.end if action else i + 3)
            task = task_of(spoken, action, things) if action else None
            return Misplaced(index, end, task, spoken.texts[index + 2 : i])
    return None


def _owned_up(spoken: Spoken, index: int, things: list[Known]) -> Misplaced | None:
    """ "I took those nuts off with the bowl still full": it belonged drained before."""
    at = own_deed(spoken, index)
    if at is None:
        return None
    end = _until(spoken, index)
    task = late_task(spoken, at, end, things)
    return Misplaced(index, end, task, spoken.texts[at : at + 6]) if task else None


def _left_out(spoken: Spoken, index: int, things: list[Known]) -> Misplaced | None:
    """ "The handle you pull back first and I have not done it"."""
    said = phrase_at(spoken, index, "left_out")
    if said is None or (said[-1] == "n't" and not spoken.stops_before(index + len(said))):
        return None
    for i in range(index - 1, max(-1, index - 9), -1):
        if spoken.texts[i] in ("first", "before"):
            start = max(spoken.utterances[spoken.utterance_of[i]].start, i - 7)
            task = _first_thing(spoken, start, i, things)
            return Misplaced(start, index + len(said), task, _ahead(spoken, start, index))
    return None


def _wrong(spoken: Spoken, index: int, things: list[Known]) -> Misplaced | None:
    """ "I've already done this wrong ... do the pedals first": what is to be first is said in the next breath."""
    said = phrase_at(spoken, index, "wrong")
    if said is None:
        return None
    end = min(len(spoken.texts), index + len(said) + REACH + 10)
    about = set(spoken.texts[index:end]) & {"first", "before"}
    if not about or (spoken.text(index - 1) in ("the", "not", "n't") and said[0] == "wrong"):
        return None
    for i in range(index + len(said), end):
        if spoken.texts[i] == "first":
            return Misplaced(index, i + 1, _first_thing(spoken, index, i, things), ())
    return (
        None
        if len(about) == 1 and said[0] in ("too", "out", "wrong")
        else Misplaced(index, index + len(said), None, ())
    )


def _first_thing(spoken: Spoken, since: int, index: int, things: list[Known]) -> Task | None:
    """What stands before "first": an action, or "do" with the thing it is about."""
    for i in range(index - 1, max(since, index - 7), -1):
        base = kinds(spoken.texts[i]).verb
        if spoken.texts[i] == "do":
            name = read_name(spoken, i + 1)
            if name is None or name.vague:
                return None
            fastener = bool(name.sightings) and name.sightings[-1].kind == "fastener"
            action = Action(
                i,
                index + 1,
                Deed(("loosen",), "loosen") if fastener else _done_to(name, things),
                name,
                Tail(["first"], index + 1),
                False,
                "verb",
                sure=True,
            )
            return task_of(spoken, action, things)
        if base == spoken.texts[i] and deed(base) is not None:
            read = read_action(spoken, i, base)
            if read is not None:
                return task_of(spoken, read, things)
    return _bare_first(spoken, since, index, things)


def _done_to(name: Name, things: Sequence[Known]) -> Deed:
    """What "do the wheel" stands for: it is removed, where it is taken off at any time."""
    taken = any(known.taken and known.name.split()[-1] == name.head for known in things)
    return Deed(("remove",), "remove") if taken else Deed(("do",), "prepare")


def _bare_first(spoken: Spoken, since: int, index: int, things: list[Known]) -> Task | None:
    """ "I drove the seal in ... bearing first, then seal": the verb stands in what was done too soon."""
    own = [at for i in range(since, index) if (at := own_deed(spoken, i)) is not None]
    done = read_action(spoken, own[-1], kinds(spoken.text(own[-1])).verb) if own else None
    named = [
        name for size in (3, 2, 1) if (name := read_name(spoken, index - size)) and name.end == index and not name.vague
    ]
    if done is None or not named or done.what.action not in TAKING | FITTING:
        return None
    word = ("remove", "remove") if done.what.action in TAKING else ("fit", "fit")
    action = Action(
        index - 1, index + 1, Deed(word[:1], word[1]), named[0], Tail([], index + 1), False, "verb", sure=True
    )
    return task_of(spoken, action, things)
