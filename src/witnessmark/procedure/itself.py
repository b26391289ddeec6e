"""What a thing does that in truth the reader does with it: "the panel unclips", "the arm lifts off"."""

from witnessmark.procedure.bare import ends_before, told
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, deed, deeds, form_of, kinds, phrase_table, word_set
from witnessmark.procedure.names import Name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail, read_tail


def read_of_itself(spoken: Spoken, thing: Name, index: int) -> Action | None:
    """ "The panel unclips", "the arm lifts off": the verb in the third person, or the plain form after a plural."""
    if thing.head == "everything":
        return None  # "everything hangs off the base" tells how it is built
    if thing.vague and not _pointed_at(spoken, thing, index):
        return None
    i = thing.end
    while spoken.text(i) in word_set("before_itself"):
        i += 1
    text = spoken.text(i)
    base = kinds(text).verb
    if not base or base not in phrase_table("verbs", "of_things") or spoken.value_over.get(i) is not None:
        return None
    form = form_of(text, base)
    just = spoken.text(i - 1) in ("just", "simply") and form == "s"
    alone = deed(base, "" if base.startswith("un") else "off") if just else None
    if alone is not None and base in word_set("comes_off") and ends_before(spoken, i + 1):
        return told(index, Tail([], i + 1), alone, thing, sure=False)
    if thing.vague and not _moved_by_reader(base, form, read_tail(spoken, i + 1)):
        return None
    if form not in ("s", "base") or (
        form == "base" and not (thing.plural or spoken.text(i - 1) in ("should", "will", "'ll", "can"))
    ):
        return None
    at = i + 1 + (spoken.text(i + 1) in word_set("before_off") and spoken.text(i + 2) in ("off", "out"))
    tail = read_tail(spoken, at)
    what = deed(base, tail.particle) or _with_place(base, tail)
    if what is not None and tail.particle in ("off", "out") and base in ("drop", "pop", "come", "fall"):
        what = Deed(("remove",), "remove")
    if _in_use(base, thing, tail):
        return None
    if what is None or not (tail.particle or tail.phrases or base.startswith("un")):
        return None
    if tail.particle and what.words[-1] != tail.particle:
        tail.particle = ""
    return Action(index, tail.end, what, thing, tail, False, "thing", sure=False)


def _pointed_at(spoken: Spoken, thing: Name, index: int) -> bool:
    """Whether "it" or "this one" begins a clause."""
    begins = spoken.stops_before(index) or spoken.text(index - 1) in ("and", "then", "so", ",")
    return begins and (spoken.text(index) == "it" or spoken.text(thing.end - 1) == "one")


def _with_place(base: str, tail: Tail) -> Deed | None:
    """ "Slips off the shaft": a verb that acts only with its particle, which leads to a place."""
    pair = deeds().get((base, tail.phrases[0].split()[0])) if tail.phrases else None
    return Deed((base,), pair.action) if pair is not None else None


def _in_use(base: str, thing: Name, tail: Tail) -> bool:
    """Whether a thing does so with nobody at it: "it turns clockwise", "it hangs by its own weight"."""
    if base in word_set("turned") and not set(tail.phrases) & word_set("directions"):
        return True
    return (base in ("turn", "spin") and thing.vague) or any(phrase.endswith(" weight") for phrase in tail.phrases)


def _moved_by_reader(base: str, form: str, tail: Tail) -> bool:
    """Whether "it slides out" is told of what the reader moves, and not of what drops or swings by itself."""
    if base in word_set("turned"):
        return True
    return form == "s" and (base not in word_set("own_motion") or "towards you" in tail.phrases)
