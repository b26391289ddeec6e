"""What is new and fitted, told without its name: "new one in", "the new ones go on with the lip out"."""

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, word_set
from witnessmark.procedure.names import Name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import read_tail


def new_one(spoken: Spoken, index: int) -> Action | None:
    """The fitting of "the new one" that begins at a token; None where none does."""
    at = index + (spoken.text(index) == "the")
    head = spoken.text(at + 1)
    if spoken.text(at) != "new" or head not in ("one", "ones") or spoken.text(index - 1) in word_set("acquiring"):
        return None
    i = at + 2
    goes = spoken.text(i) in word_set("goes_on")
    i += goes
    while goes and spoken.text(i) in word_set("softeners"):
        i += 1
    if spoken.stops_before(at + 2) or spoken.text(i) not in ("in", "on", "up", "back"):
        return None
    ends = spoken.stops_before(i + 1) or spoken.text(i + 1) in PUNCTUATION
    if not (goes or ends or spoken.text(i + 1) in word_set("clause_ends") | word_set("new_in")):
        return None
    tail = read_tail(spoken, i)
    tail.particle = ""
    thing = Name(index, at + 2, "", head, head == "ones", which="new")
    return Action(index, max(tail.end, i + 1), Deed(("fit",), "fit"), thing, tail, False, "new", sure=True)
