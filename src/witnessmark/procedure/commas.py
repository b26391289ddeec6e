"""Details told behind commas: "new seal, dry, no grease, in the groove all the way round"."""

from witnessmark.procedure.facing import facing
from witnessmark.procedure.lexicon import word_set
from witnessmark.procedure.names import read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail, read_tail

PASSED = 3  # tokens of "no grease" that are passed over


def past_commas(spoken: Spoken, tail: Tail) -> Tail:
    """A tail with the manner and the places told behind commas; what else stands there ends it."""
    while spoken.text(tail.end) == ",":
        i = tail.end + 1
        text = spoken.text(i)
        faced = facing(spoken, i)
        if faced is not None:
            tail.phrases.append(faced[0])
            tail.end = faced[1]
        elif text in word_set("manner"):
            tail.phrases.append(text)
            tail.end = i + 1
        elif text == "no" and (comma := _comma_after(spoken, i)):
            tail.end = comma
        elif text in word_set("linking") and spoken.text(i + 1) in word_set("determiners"):
            name = read_name(spoken, i + 1)
            if name is None or name.vague:
                break
            rest = read_tail(spoken, name.end)
            tail.phrases += [f"{text} {name.text}", *rest.phrases]
            tail.sightings += (*name.sightings, *rest.sightings)
            tail.end = max(name.end, rest.end)
        else:
            break
    return tail


def _comma_after(spoken: Spoken, index: int) -> int:
    """The next comma within a few tokens, 0 where there is none."""
    return next((i for i in range(index + 1, index + 1 + PASSED) if spoken.text(i) == ","), 0)
