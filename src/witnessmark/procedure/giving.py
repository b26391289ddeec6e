"""What a thing gets: "the plugs get the new washers", "the wheel gets a wash in soapy water"."""

from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, deed, kinds, phrase_table, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import read_tail

GIVEN = ("gets", "get")


def read_given(spoken: Spoken, thing: Name, index: int, at: int, become: str) -> Action | None:
    """The action told of what a thing gets; at: the token behind "gets"."""
    if become not in GIVEN or thing.vague or spoken.stops_before(at):
        return None
    return _treated(spoken, thing, index, at) or _fitted(spoken, thing, index, at)


def _treated(spoken: Spoken, thing: Name, index: int, at: int) -> Action | None:
    """ "Gets a good wash in warm water": what is named is what is done."""
    if spoken.text(at) not in ("a", "another"):
        return None
    i = at + 1
    while spoken.text(i) in word_set("empty_adjectives") | {"quick", "light", "final"}:
        i += 1
    base = kinds(spoken.text(i)).verb
    what = deed(base) if base == spoken.text(i) else None
    known = spoken.sighting_over.get(i) is not None or base in phrase_table("verbs", "light")
    if what is None or known or what.action not in word_set("treatments"):
        return None
    tail = read_tail(spoken, i + 1)
    return Action(index, tail.end, what, thing, tail, False, "thing", sure=True)


def _fitted(spoken: Spoken, thing: Name, index: int, at: int) -> Action | None:
    """ "Get the new washers", "gets new grease": what is new is fitted, a substance is put on."""
    given = read_name(spoken, at)
    if given is None or given.vague or "new" not in spoken.texts[at : given.end]:
        return None
    tail = read_tail(spoken, given.end)
    tail.particle = ""
    stuff = phrase_table("tools", "does").get(given.head)
    if stuff and stuff[1] == "lubricate":
        return Action(index, tail.end, Deed((stuff[0],), stuff[1]), thing, tail, False, "thing", sure=True)
    if not given.sightings:
        return None
    if thing.sightings:
        tail.phrases.insert(0, f"on {thing.text}")
        tail.sightings = (*thing.sightings, *tail.sightings)
    return Action(index, max(tail.end, given.end), Deed(("fit",), "fit"), given, tail, False, "thing", sure=True)
