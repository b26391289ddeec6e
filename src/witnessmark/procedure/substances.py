"""Stuff told with where it goes: "dab of sealant in the half moons", "skim of grease on the raised places"."""

from dataclasses import replace

from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, phrase_table, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail, read_tail


def read_substance(spoken: Spoken, thing: Name, index: int, since: int) -> Action | None:
    """A substance and the thing that it is put on; a dab of it is told where the thing is left unsaid too."""
    if thing.vague or thing.text.split()[-1] not in word_set("spread_stuff"):
        return None
    dab = thing.head in word_set("dabs")
    at = _place(spoken, thing)
    place = spoken.text(at)
    target = read_name(spoken, at + 1) if place in word_set("spread_places") else None
    if target is None and dab:
        return _on_the_same(spoken, thing, index, since)
    if target is None or spoken.stops_before(thing.end):
        return None
    if target.vague:
        return _on_it(spoken, thing, index, target) if place in ("on", "round", "around", "over") else None
    if target.head in word_set("rests") | {"everything"} or (target.head in word_set("body") and not target.sightings):
        return None
    what = _done_with(thing)
    if what is not None and not dab and place in ("to", "up", "down"):
        return None  # "oil to the dot" tells how full
    negative = spoken.text(index - 1) in ("no", "without")
    tail = read_tail(spoken, target.end)
    if what is not None and not dab:
        said = thing.text.partition(" of ")[2] if thing.head in word_set("strokes") else thing.text
        if not set(said.split()) <= {"the", "a", "some", what.words[0]}:
            tail.phrases.insert(0, f"with {said.removeprefix('the ')}")
        return Action(index, tail.end, what, target, tail, negative, "thing", sure=True)
    lead = "to" if place in ("on", "over", "along", "up", "down") else place
    tail.phrases.insert(0, f"{lead} {target.text}")
    tail.sightings = (*target.sightings, *tail.sightings)
    stuff = replace(thing, text=_dab(thing.text)) if dab else thing
    return Action(index, tail.end, Deed(("apply",), "apply"), stuff, tail, negative, "thing", sure=True)


def _place(spoken: Spoken, thing: Name) -> int:
    """The token of the place that it is put on: "a bead goes round inside the holes" is inside them."""
    places = word_set("spread_places")
    goes = spoken.text(thing.end) in ("go", "goes") and spoken.text(thing.end + 1) not in ("to", "in", "into", "down")
    at = thing.end + goes
    inner = spoken.text(at + 1) in places and spoken.text(at + 2) in word_set("determiners")
    return at + (spoken.text(at) in places and inner)


def _on_the_same(spoken: Spoken, thing: Name, index: int, since: int) -> Action | None:
    """ "Wipe the cups out and a skim of grease": what was worked on just before gets it."""
    own = _done_with(thing)
    joined = index > since and all(spoken.text(i) in ("and", "then", ",") for i in range(since, index))
    if own is None or not joined or since == 0:
        return None
    return Action(index, thing.end, own, None, Tail([], thing.end), False, "thing", sure=True)


def _on_it(spoken: Spoken, thing: Name, index: int, target: Name) -> Action | None:
    """ "A bit of coolant on it": what was just named is coated."""
    if spoken.text(target.start) not in word_set("objects") or spoken.text(index - 1) in ("no", "without"):
        return None
    tail = read_tail(spoken, target.end)
    own = _done_with(thing)
    if own is None:
        tail.phrases.insert(0, f"with {_dab(thing.text) if thing.head in word_set('dabs') else thing.text}")
    return Action(index, tail.end, own or Deed(("coat",), "apply"), target, tail, False, "thing", sure=True)


def _done_with(thing: Name) -> Deed | None:
    """What is done with a substance that has a verb of its own: grease, oil."""
    table = phrase_table("tools", "does")
    bare = thing.text.removeprefix("the ").removeprefix("some ")
    found = table.get(bare) or table.get(bare.split()[-1])
    return Deed((found[0],), found[1]) if found and found[1] in ("lubricate", "wait") else None


def _dab(text: str) -> str:
    """How much of what, with its articles: "a dab of sealant"."""
    measure, _, stuff = text.partition(" of ")
    bare = measure.removeprefix("the ").removeprefix("a ")
    return f"{bare if bare.endswith('s') else f'a {bare}'} of {stuff.removeprefix('the ')}"
