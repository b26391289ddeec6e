"""Where the speaker lists the tools and supplies instead of working."""

from collections.abc import Sequence

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import word_set
from witnessmark.procedure.spoken import Spoken

EARLY = 0.3  # the list begins in this first part of a recording
DENSE = 0.09  # things to have for each word of an utterance
FEWEST = 4  # things in a list
GAP = 1  # utterances without things that a list may hold in a row


WORKING = frozenset({"hold", "support", "stop", "disconnect", "lift", "lower", "loosen", "protect", "inspect", "drain"})


def _works(action: Action) -> bool:
    """Whether an action is work that has begun: "hold it", "chocks behind the back wheels"."""
    placed = action.source == "thing" and action.what.words == ("put",) and action.thing is not None
    said = {action.thing.head, *" ".join(action.tail.phrases).split()} if placed and action.thing else set()
    under = bool(said & word_set("stays_on"))
    return under or (action.sure and action.what.action in WORKING)


def tool_lists(spoken: Spoken, actions: Sequence[Action] = ()) -> tuple[tuple[int, int], ...]:
    """Token spans (end exclusive) in which tools and supplies are listed; none or one.

    Where work is told, the list is over.
    """
    working = {spoken.utterance_of[action.start] for action in actions if _works(action)}
    places = {s.start for s in spoken.sightings if s.kind in ("tool", "supply")} | {
        v.start_token for v in spoken.values if v.kind == "tool_size"
    }
    best: tuple[int, int, int] = (0, 0, 0)
    start = last = count = idle = 0
    for n, utterance in enumerate(spoken.utterances):
        here = sum(i in places for i in range(utterance.start, utterance.end))
        words = sum(text not in PUNCTUATION for text in spoken.texts[utterance.start : utterance.end])
        if n in working:
            count = idle = 0
        elif here >= max(1, DENSE * words):
            start = n if count == 0 else start
            count, last, idle = count + here, n, 0
        elif count:
            idle += 1
        if count > best[0] and spoken.utterances[start].start < EARLY * len(spoken.texts):
            best = (count, start, last)
        if idle > GAP:
            count = idle = 0
    if best[0] < FEWEST:
        return ()
    first = best[1]
    for n in range(first - 1, max(0, first - 6), -1):
        said = set(spoken.texts[spoken.utterances[n].start : spoken.utterances[n].end])
        if n not in working and (
            said & {"tools", "need", "stuff", "parts"}
            or any(i in places for i in range(spoken.utterances[n].start, spoken.utterances[n].end))
        ):
            first = n
        elif n < first - 1:
            break
    return ((spoken.utterances[first].start, spoken.utterances[best[2]].end),)
