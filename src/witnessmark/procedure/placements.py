"""Where things go and how they lie there: "the motor goes flat on two blocks", "the short shoe goes to the front"."""

from witnessmark.procedure.clauses import clause_ahead, has_own
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, form_of, kinds, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken, display
from witnessmark.procedure.tails import Tail, read_tail

LAID = {"flat": "lay", "upright": "stand", "on its side": "lay", "on its back": "lay", "face down": "lay"}


def read_placed(spoken: Spoken, thing: Name, index: int, at: int, become: str) -> Action | None:
    """The action told of where a thing "goes", from the token at on, and no particle that the vocabulary knows."""
    if thing.vague or not become.endswith(("goes", "go", "went")):
        return None
    tail = read_tail(spoken, at)
    return _laid(spoken, thing, index, tail) or _to_a_side(spoken, thing, index, tail)


def _laid(spoken: Spoken, thing: Name, index: int, tail: Tail) -> Action | None:
    """ "The wheel goes flat on two blocks": it is laid there."""
    how = tail.particle or (tail.phrases[0] if tail.phrases else "")
    verb = LAID.get(how)
    if verb is None or len(tail.phrases) + bool(tail.particle) < 2:
        return None
    held_there(spoken, tail)
    return Action(index, tail.end, Deed((verb,), "move"), thing, tail, False, "thing", sure=True)


def _to_a_side(spoken: Spoken, thing: Name, index: int, tail: Tail) -> Action | None:
    """ "The long bolt goes to the top and the short one to the bottom"."""
    if tail.particle or not tail.phrases or not _is_side(tail.phrases[0]) or not thing.sightings:
        return None
    other = _other_side(spoken, tail.end)
    if other is not None:
        named, rest = other
        tail.phrases.append(f"and {named} {rest.phrases[0]}")
        tail.end = rest.end
    return Action(index, tail.end, Deed(("fit",), "fit"), thing, tail, False, "thing", sure=True)


def _is_side(phrase: str) -> bool:
    """ "To the front": a side of the machine and no place to take a thing to."""
    lead, _, side = phrase.rpartition(" the ")
    return lead == "to" and side in word_set("machine_sides")


def _other_side(spoken: Spoken, index: int) -> tuple[str, Tail] | None:
    """The second thing and its side: "and the short one to the bottom"."""
    if spoken.text(index) != "and" or spoken.text(index + 1) not in word_set("determiners"):
        return None
    name = read_name(spoken, index + 1)
    if name is None:
        return None
    tail = read_tail(spoken, name.end)
    if tail.particle or not tail.phrases or not _is_side(tail.phrases[0]):
        return None
    return name.text or " ".join(spoken.texts[name.start : name.end]), tail


def held_there(spoken: Spoken, tail: Tail) -> None:
    """Add what a thing gets where it was put: "goes in the stand and gets a strap around it"."""
    if spoken.text(tail.end) != "and" or spoken.text(tail.end + 1) not in ("gets", "get") or not tail.phrases:
        return
    given = read_name(spoken, tail.end + 2)
    if given is None or given.vague or spoken.text(given.end + 1) not in ("it", "them"):
        return
    place = spoken.text(given.end)
    if place in word_set("linking"):
        tail.phrases.append(f"with {given.text} {place} {spoken.text(given.end + 1)}")
        tail.sightings += given.sightings
        tail.end = given.end + 2


def off_its_place(spoken: Spoken, thing: Name) -> Tail | None:
    """ "Lead off the plug first", "plug out the wall": what a thing comes off, told without a verb."""
    text, follows = spoken.text(thing.end), spoken.text(thing.end + 1)
    if (
        text not in ("off", "out")
        or follows not in word_set("determiners") - {"a", "an"}
        or spoken.stops_before(thing.end)
    ):
        return None
    place = read_name(spoken, thing.end + 1)
    if place is None or place.vague or not (place.sightings or thing.sightings) or spoken.stops_before(thing.end + 1):
        return None
    if place.head in word_set("machine_sides") | word_set("sides"):
        return None  # "out the right side" is the way and not the place
    if len(place.sightings) > 1 and has_own(spoken, place.end):
        first = place.sightings[0]  # "tensioner off its stud, idler off"
        place = Name(place.start, first.end, f"the {display(spoken, first)}", sightings=(first,))
    tail = Tail([], place.end) if clause_ahead(spoken, place.end) else read_tail(spoken, place.end)
    if tail.particle or _goes_on(spoken, tail.end):
        return None
    tail.phrases.insert(0, f"{'out of' if text == 'out' else text} {place.text}")
    tail.sightings = (*place.sightings, *tail.sightings)
    return tail


def _goes_on(spoken: Spoken, index: int) -> bool:
    """Whether what was named is the subject of what follows: "the cable off the old one is shot"."""
    text = spoken.text(index)
    if spoken.stops_before(index):
        return False
    return text in word_set("auxiliaries") or (bool(kinds(text).verb) and text.endswith("s"))


def is_put(thing: Name, tail: Tail) -> bool:
    """Whether a thing that "goes in" is a tool, which is put there and not fitted."""
    tool = bool(thing.sightings) and thing.sightings[-1].kind == "tool" and thing.head not in word_set("stays_on")
    return (
        (tool or thing.head in word_set("prying"))
        and bool(tail.phrases)
        and tail.phrases[0].split()[0] in word_set("reached")
    )


def in_use(spoken: Spoken, index: int) -> bool:
    """Whether what follows tells what a thing does when the machine runs: "and that turns the brush", "when you pull"."""
    text, subject, verb = (spoken.text(index + n) for n in range(3))
    if text == "when" or (text == "and" and subject in ("comes", "goes", "out", "back")):
        return True
    if text in ("and", "so") and subject in ("that", "it", "they", "which"):
        return (
            kinds(verb).verb not in ("", "go", "come", "get", "be", "have") and form_of(verb, kinds(verb).verb) == "s"
        )
    return text == "which" and subject.endswith("s") and bool(kinds(subject).verb)


def past_origin(spoken: Spoken, thing: Name) -> int:
    """The token behind a thing and where it comes from: "the foam out of the air box" gets washed."""
    if spoken.texts[thing.end : thing.end + 2] not in (("out", "of"), ("from", "the")):
        return thing.end
    place = read_name(spoken, thing.end + 2 - (spoken.text(thing.end) == "from"))
    told = place is not None and spoken.text(place.end) in ("gets", "get", "is", "are", "'s", "wants", "needs")
    return place.end if place is not None and told else thing.end
