"""Where the speaker lists the tools and supplies instead of working."""

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.spoken import Spoken

EARLY = 0.3  # the list begins in this first part of a recording
DENSE = 0.09  # things to have for each word of an utterance
FEWEST = 4  # things in a list
GAP = 1  # utterances without things that a list may hold in a row


def tool_lists(spoken: Spoken) -> tuple[tuple[int, int], ...]:
    """Token spans (end exclusive) in which tools and supplies are listed; none or one."""
    places = {s.start for s in spoken.sightings if s.kind in ("tool", "supply")} | {v.start_token for v in spoken.values if v.kind == "tool_size"}
    best: tuple[int, int, int] = (0, 0, 0)
    start = last = count = idle = 0
    for n, utterance in enumerate(spoken.utterances):
        here = sum(i in places for i in range(utterance.start, utterance.end))
        words = sum(text not in PUNCTUATION for text in spoken.texts[utterance.start : utterance.end])
        if here >= max(1, DENSE * words):
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
    return ((spoken.utterances[best[1]].start, spoken.utterances[best[2]].end),)
