"""Times to wait told without "wait": "ten minutes at least", "half an hour for the glue to go off"."""

from witnessmark.procedure.clauses import begins_clause
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, word_set
from witnessmark.procedure.names import read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail

LEAST = (("at", "least"), ("minimum",), ("or", "more"), ("or", "longer"))


def read_wait(spoken: Spoken, index: int, since: int) -> Action | None:
    """The wait whose length is told from a token on; None where the time is only talked of."""
    least = spoken.texts[index : index + 2] == ("at", "least")
    start = index + 2 if least else index
    end = time_end(spoken, start)
    if end is None:
        return None
    begins = begins_clause(spoken, index, since)
    wanted = spoken.text(index - 1) in word_set("wants_time") and not spoken.stops_before(index)
    said = next((form for form in LEAST if spoken.texts[end : end + len(form)] == form), ())
    end += len(said)
    told = ((least or said) and begins) or ((begins or wanted) and _for_something(spoken, end))
    if not told or (spoken.text(end) in word_set("subjects") and spoken.text(end) not in ("you", "it", "this", "that")):
        return None
    count = " ".join(spoken.texts[start : end - len(said)])
    tail = Tail([f"at least {count}" if least or said else count], end)
    return Action(index, end, Deed(("wait",), "wait"), None, tail, False, "verb", sure=True)


def time_end(spoken: Spoken, index: int) -> int | None:
    """The token after a time told from a token on: "half an hour", "twenty four hours"."""
    at = index
    while spoken.text(at) in word_set("time_counts") | word_set("numbers") or spoken.text(at).isdigit():
        if at > index and spoken.stops_before(at):
            return None
        at += 1
    timed = at > index and spoken.text(at) in word_set("times") and not spoken.stops_before(at)
    return at + 1 if timed else None


def _for_something(spoken: Spoken, index: int) -> bool:
    """Whether it is told what the time is for: "to dry", "for the glue to go off", "before you touch it"."""
    if spoken.stops_before(index):
        return False
    if spoken.text(index) == "before":
        return spoken.text(index + 1) in ("you", "we", "anybody", "anyone")
    at = index
    if spoken.text(index) == "for":
        name = read_name(spoken, index + 1)
        if name is None:
            return False
        at = name.end
    return spoken.text(at) == "to" and spoken.text(at + 1) in word_set("settles")
