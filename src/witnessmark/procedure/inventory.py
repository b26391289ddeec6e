"""Where the speaker lists the tools and supplies instead of working."""

from bisect import bisect_left

from witnessmark.procedure.spoken import Spoken

EARLY = 0.3  # the list stands in this first part of a recording
WINDOW = 30  # tokens
DENSE = 4  # things to have, named in one window


def tool_lists(spoken: Spoken) -> tuple[tuple[int, int], ...]:
    """Token spans (end exclusive) in which tools and supplies are listed."""
    places = [s.start for s in spoken.sightings if s.kind in ("tool", "supply")] + [v.start_token for v in spoken.values if v.kind == "tool_size"]
    places = sorted(set(places))
    last = int(len(spoken.texts) * EARLY)
    spans: list[tuple[int, int]] = []
    for n, place in enumerate(places):
        if place > last:
            break
        end = bisect_left(places, place + WINDOW)
        if end - n >= DENSE:
            stop = places[end - 1] + 1
            if spans and place - spans[-1][1] > 2 * WINDOW:
                break
            if spans and place - spans[-1][1] <= WINDOW // 2:
                spans[-1] = (spans[-1][0], max(stop, spans[-1][1]))
            else:
                spans.append((place, stop))
    return tuple(_whole(spoken, span) for span in spans[:2])


def _whole(spoken: Spoken, span: tuple[int, int]) -> tuple[int, int]:
    """A span widened to the utterances it stands in."""
    return spoken.utterances[spoken.utterance_of[span[0]]].start, spoken.utterances[spoken.utterance_of[span[1] - 1]].end
