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
    time = time_told(spoken, start)
    if time is None:
        return None
    count, end = time
    begins = begins_clause(spoken, index, since)
    wanted = spoken.text(index - 1) in word_set("wants_time") and not spoken.stops_before(index)
    said = next((form for form in LEAST if spoken.texts[end : end + len(form)] == form), ())
    end += len(said)
    told = ((least or said) and begins) or ((begins or wanted) and _for_something(spoken, end))
    if not told or (spoken.text(end) in word_set("subjects") and spoken.text(end) not in ("you", "it", "this", "that")):
        return None
    tail = Tail([f"at least {count}" if least or said else count], end)
    return Action(index, end, Deed(("wait",), "wait"), None, tail, False, "verb", sure=True)


def time_told(spoken: Spoken, index: int) -> tuple[str, int] | None:
    """A time told from a token on, as a guide writes it, and the token after it: "half an hour", "ten or fifteen minutes"."""
    start = index
    while spoken.text(start) in word_set("before_time") and not spoken.stops_before(start + 1):
        start += 1
    if spoken.text(start) == "overnight":
        return "overnight", start + 1
    at = start
    while spoken.text(at) in word_set("time_counts") | word_set("numbers") or spoken.text(at).isdigit():
        at += 1
        if spoken.stops_before(at):
            return None
    if at == start or spoken.text(at) not in word_set("times"):
        return None
    words = list(spoken.texts[start : at + 1])
    if len(words) > 3 or words[0] not in ("a", "an"):  # "a good hour", but "ten minutes"
        words = [word for word in words if word not in ("good", "solid", "full")]
    if words[0] == "a" and len(words) == 2 and words[1] not in ("day", "week", "night"):
        return None  # "give me a minute"
    if words[0] == "a" and (words[1] in word_set("numbers") - {"couple"} or words[1] in ("twenty", "thirty", "forty")):
        del words[0]
    return " ".join(words), at + 1


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
