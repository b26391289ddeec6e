"""What is said with a verb that acts and is no work: pictures put up, a spanner put down, a mistake owned up to."""

from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, deeds, form_of, kinds, phrase_table, word_set
from witnessmark.procedure.names import Name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail

CONFESSED = 12  # tokens back within which a mistake is owned up to; half as many ahead
SHOWN = 8  # tokens back within which pictures were spoken of


def is_no_work(spoken: Spoken, index: int, base: str, name: Name | None, tail: Tail) -> bool:
    """Whether what a verb is said of is no part of the machine: a hand, a dog, a picture, nothing to look for."""
    if base == "look":
        return not (tail.phrases and tail.phrases[0].split()[0] in word_set("looked"))
    if base == "listen":
        *_, last = tail.phrases[0].split() if tail.phrases else [""]
        return last in word_set("vague") | word_set("idle") or not tail.phrases[0].startswith(("for ", "to "))
    if base == "get" and (name is None or name.vague) and _is_number(spoken.text(index + 1)):
        return True  # "i get thirty five on him": read off a meter
    if name is None:
        return False
    if base == "keep" and spoken.text(index - 1) == "i" and name.text.startswith(("a ", "an ")):
        return True  # "i keep a magnet on the bench"
    if not name.sightings and name.head in word_set("body") | word_set("living"):
        return True
    if base == "keep" and spoken.text(name.start) in ("your", "yer", "my") and name.head in word_set("body"):
        return True  # "keep your head back": no head of a machine
    if base not in word_set("showing") or name.sightings:
        return False
    near = spoken.texts[max(0, index - SHOWN) : index] if name.vague else spoken.texts[name.start : name.end + 1]
    return bool(set(near) & word_set("pictures"))


def _is_number(text: str) -> bool:
    return text in word_set("numbers") or text.isdigit() or text.endswith(("ty", "teen"))


def is_laid_away(name: Name | None, what: Deed) -> bool:
    """ "Put your spanner down"."""
    return " ".join(what.words) in word_set("laying_away") and is_tool_alone(name)


def is_held_on(name: Name | None, what: Deed, tail: Tail) -> bool:
    """ "Put the small wrench on": a tool that is not worn and does not stay where it is put is only held there."""
    if name is None or tail.phrases or not is_tool_alone(name) or what.words not in (("put", "on"), ("stick", "on")):
        return False
    worn = phrase_table("verbs", "worn")["things"]
    kept = name.head in word_set("stays_on") or name.head in worn or any(s.name in worn for s in name.sightings)
    return not kept


def is_tool_alone(name: Name | None) -> bool:
    """Whether a name is of a tool alone."""
    return name is not None and bool(name.sightings) and all(s.kind == "tool" for s in name.sightings)


def pointed_at(spoken: Spoken, base: str, name: Name | None, tail: Tail) -> Tail:
    """The tail without a place that only a pronoun told: "close the door on it"."""
    if name is None or tail.phrases or base in ("leave", "keep") or (base, tail.particle) in deeds():
        return tail
    pointed = spoken.text(tail.end) in ("it", "them", "that", "him", "top", "one")
    if pointed and tail.particle in ("on", "over", "along", "across", "around", "round", "through"):
        return Tail([], tail.end + 1)
    return tail


def owned_up(spoken: Spoken, action: Action) -> bool:
    """Whether a deed is told as a mistake: "i took the belt off first like a rookie"."""
    text = spoken.texts[action.start]
    base = kinds(text).verb
    if action.source != "verb" or action.sure or not base or form_of(text, base) != "past":
        return False
    near = spoken.texts[max(0, action.start - CONFESSED) : action.end + CONFESSED // 2]
    return bool(set(near) & word_set("confessing"))
