"""Dirt told with where it lies and that it is to go: "all this fluff round the drum, out", "soot off the plate"."""

from witnessmark.language.words import singular
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail


def read_dirt(spoken: Spoken, thing: Name, index: int) -> Action | None:
    """The cleaning of a place that is named behind its dirt and before "out"; None where none is told so."""
    led = spoken.text(thing.end)
    if not _is_dirt(thing) or led not in word_set("dirt_lies") or spoken.stops_before(thing.end):
        return None
    place = read_name(spoken, thing.end + 1)
    if place is None or place.vague or spoken.stops_before(thing.end + 1):
        return None
    at = place.end + (spoken.text(place.end) in (",", "all"))
    if spoken.text(at) not in ("out", "off", "away", "gone") or spoken.text(at + 1) in ("of", *word_set("determiners")):
        return None
    where = {"underneath": "under ", "under": "under ", "behind": "behind "}.get(led, "")
    phrase = f"from {where}{place.text}"
    tail = Tail([phrase], at + 1, sightings=place.sightings)
    return Action(index, at + 1, Deed(("clean",), "clean"), thing, tail, False, "thing", sure=True)


def _is_dirt(thing: Name) -> bool:
    """Whether a thing is what a machine is cleaned of."""
    old = "old" in thing.text.split() and thing.head in word_set("old_stuff")
    return old or singular(thing.head) in word_set("dirts") or thing.head in word_set("dirts")
