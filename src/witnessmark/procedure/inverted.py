"""Actions told with the particle before the thing: "off comes the cover", "up she goes", "off with the wheel"."""

from dataclasses import replace

from witnessmark.language.tokens import SENTENCE_END
from witnessmark.procedure.bare import deed_of, told
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, deed, form_of, kinds, phrase_table, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.no_work import is_tool_alone
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail, read_tail

FOLLOWS = 7  # tokens back within which a condition makes what is told its outcome
OUTCOME = 14  # tokens back within which a condition or a reason makes what is said an outcome
MOVED = ("comes", "come", "goes", "go")
TURNED = ("winds", "screws", "unscrews", "spins", "threads")


def read_inverted(spoken: Spoken, index: int) -> Action | None:
    """The action told from a particle on."""
    if spoken.text(index) not in phrase_table("verbs", "goes") and spoken.text(index) not in ("round", "around"):
        return None
    return _thing_last(spoken, index) or _off_with(spoken, index) or _pronoun_between(spoken, index)


def _thing_last(spoken: Spoken, index: int) -> Action | None:
    """ "Off comes the cover", "in goes the new one"."""
    particle, verb = spoken.text(index), spoken.text(index + 1)
    if verb not in MOVED:
        return None
    thing = read_name(spoken, index + 2)
    if thing is None or thing.vague or spoken.stops_before(index + 2):
        return None
    what = deed_of(spoken, thing, particle)
    return told(index, read_tail(spoken, thing.end), what, thing) if what else None


def _off_with(spoken: Spoken, index: int) -> Action | None:
    """ "Off with the wheel", "out with the old seal"."""
    particle = spoken.text(index)
    if (
        particle not in ("off", "out", "in", "on", "up", "down")
        or spoken.text(index + 1) != "with"
        or not _opens(spoken, index)
    ):
        return None
    thing = read_name(spoken, index + 2)
    if thing is None or thing.sizes or is_tool_alone(thing) or not (thing.sightings or thing.vague):
        return None
    if thing.vague and particle in ("up", "down"):
        return None
    what = deed_of(spoken, thing, particle)
    return told(index, read_tail(spoken, thing.end), what, thing, sure=not thing.vague) if what else None


def _opens(spoken: Spoken, index: int) -> bool:
    """Whether a clause begins at a particle."""
    return spoken.stops_before(index) or spoken.text(index - 1) in word_set("bare_starters")


def _pronoun_between(spoken: Spoken, index: int) -> Action | None:
    """ "Up she goes", "off it comes", "out she slides"."""
    particle, subject, verb = (spoken.text(index + n) for n in range(3))
    if subject not in ("she", "he", "it", "they") or spoken.stops_before(index + 1):
        return None
    tail = read_tail(spoken, index + 3)
    if particle in ("up", "down") and (outcome(spoken, index) or not (subject == "she" or jacked(spoken, index))):
        return None
    if particle == "back" and verb not in ("goes", "go"):
        return None
    thing = Name(index + 1, index + 2, "", plural=subject == "they", feminine=subject == "she")
    if verb not in MOVED:
        what = _of_itself(verb, particle)
        if what is not None and verb in TURNED:
            named = _just_named(spoken, index)
            return told(index, tail, what, named) if named is not None else None
    elif particle in ("round", "around"):
        return _turned(spoken, index, tail) if subject == "she" else None
    elif spoken.text(index - 1) in ("and", "here", "there") and particle in ("out", "here") and not tail.phrases:
        return None
    else:
        what = deed_of(spoken, thing, particle)
    return Action(index, tail.end, what, thing, tail, False, "thing", sure=False) if what else None


def _turned(spoken: Spoken, index: int, tail: Tail) -> Action | None:
    """ "Round she goes": the engine is turned."""
    if not spoken.engine:
        return None
    thing = Name(index + 1, index + 2, f"the {spoken.engine}", spoken.engine)
    return Action(index, tail.end, Deed(("turn",), "turn"), thing, tail, False, "thing", sure=True)


def _just_named(spoken: Spoken, index: int) -> Name | None:
    """The thing named right before a clause: "six mil in the axle and out she winds"."""
    end = index - 1 if spoken.text(index - 1) in word_set("bare_starters") else index
    sighting = spoken.sighting_over.get(end - 1)
    return read_name(spoken, sighting.start) if sighting is not None and sighting.kind != "tool" else None


def _of_itself(verb: str, particle: str) -> Deed | None:
    """ "Out she slides", "off it pops": the thing does what the reader does with it."""
    base = kinds(verb).verb
    if base not in phrase_table("verbs", "of_things") or form_of(verb, base) != "s" or particle in ("round", "around"):
        return None
    if base in word_set("own_motion") and base != "pop":
        return None
    found = deed(base, particle)
    return replace(found, action="remove") if found and particle in ("off", "out") else found


def outcome(spoken: Spoken, index: int) -> bool:
    """Whether what is said is what would happen: "if you pick up the back the front goes up"."""
    for i in range(index - 1, max(index - OUTCOME, -1), -1):
        if spoken.texts[i] in ("if", "because", "cause", "when"):
            return True
        if spoken.stops_before(i + 1):
            return False
    return False


def jacked(spoken: Spoken, index: int) -> bool:
    """Whether it is told near a token what lifts: of what else "goes up" nobody is told what to do."""
    near = spoken.texts[max(0, index - OUTCOME) : index + OUTCOME]
    return bool(set(near) & word_set("lifting"))


def only_follows(spoken: Spoken, index: int) -> bool:
    """Whether it is told what comes of something: "or the pistons come out", "if you lean on it a hose pops off",
    "if there 's teeth missing stop now , that 's the gearbox off".
    """
    start = index
    while start > index - OUTCOME and start > 0 and spoken.text(start - 1) not in SENTENCE_END:
        start -= 1
    said = spoken.texts[start:index]
    if said[-2:] == ("that", "'s") and "if" in said:
        return True
    if spoken.text(index) == "new" or (spoken.stops_before(index) and said[-1:] != (",",)):
        return False
    said = said[-FOLLOWS:]
    if "if" not in said:
        return bool(said) and said[-1] == "or" and spoken.text(index) in ("the", "your", "it", "they")
    supposed = said[said.index("if") + 1 :]
    return supposed[:1] == ("you",) and not set(supposed) & word_set("bare_starters")
