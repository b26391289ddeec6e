"""The mains plug of the whole machine, told without a verb: "plug out", "plug in"."""

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, word_set
from witnessmark.procedure.names import Name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail

POWERED = 16  # tokens either side of "plug out" within which it is told what makes it the mains plug


def read_mains(spoken: Spoken, index: int) -> Action | None:
    """The plug taken out or put in at a token, of a machine without an engine; None where a place or another plug is meant."""
    way = spoken.text(index + 1)
    if spoken.text(index) != "plug" or way not in ("in", "out") or spoken.engine or spoken.stops_before(index + 1):
        return None
    ends = spoken.stops_before(index + 2) or spoken.text(index + 2) in PUNCTUATION or spoken.text(index + 2) == "and"
    if not ends or spoken.text(index - 1) in word_set("determiners"):
        return None
    tail = Tail([], index + 2)
    if way == "in":
        return Action(index, tail.end, Deed(("plug", "in"), "connect"), None, tail, False, "thing", sure=True)
    near = spoken.texts[max(0, index - POWERED) : index + POWERED]
    if not set(near) & word_set("mains_near"):
        return None
    plug = Name(index, index + 1, "the mains plug", "plug")
    return Action(index, tail.end, Deed(("pull",), "disconnect"), plug, tail, False, "thing", sure=True)
