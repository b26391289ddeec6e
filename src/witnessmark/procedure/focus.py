"""Which thing "it", "these" and "the big guy" are: the last one named that fits in number and kind."""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.procedure.deed import Action
from witnessmark.procedure.names import Name
from witnessmark.procedure.lexicon import word_set
from witnessmark.procedure.spoken import Spoken, display, is_plural

REACH = 60  # tokens back within which a thing is still in focus
THREADED = frozenset({"tighten", "loosen"})


@dataclass(frozen=True, slots=True)
class Known:
    """A thing that was named. at: token. text: as a guide writes it, article included. name: without article.
    aside: named only to say where, behind a preposition."""

    at: int
    text: str
    name: str
    kind: str
    plural: bool
    aside: bool = False


def known_things(spoken: Spoken, actions: Sequence[Action]) -> tuple[Known, ...]:
    """Everything named, in order: the things seen, and what actions named in words no vocabulary knows."""
    found = [_of_sighting(spoken, sighting.start) for sighting in spoken.sightings]
    for action in actions:
        thing = action.thing
        if thing is not None and not thing.vague and not thing.sightings:
            bare = thing.text.removeprefix("the ").removeprefix("a ").removeprefix("an ")
            found.append(Known(thing.start, f"the {bare}" if thing.text.startswith(("a ", "an ")) else thing.text, bare, "other", thing.plural))
    return tuple(sorted(found, key=lambda known: known.at))


def _of_sighting(spoken: Spoken, index: int) -> Known:
    sighting = spoken.sighting_over[index]
    name = display(spoken, sighting)
    before = [spoken.text(index - n) for n in (1, 2, 3)]
    led = next((word for word in before if word not in word_set("determiners") and word not in word_set("name_words")), "")
    return Known(index, f"the {name}", name, sighting.kind, is_plural(name.split(",")[0].split()[-1]), led in word_set("prepositions"))


def in_focus(things: Sequence[Known], action: Action, machine: str) -> Known | None:
    """The thing meant by an action whose own words do not say; None where none fits."""
    at = action.thing.start if action.thing else action.start
    whole = action.what.action in ("lift", "lower") or action.what.words[0] in ("walk", "roll", "wheel", "jack", "tip", "park", "drive")
    if whole and (action.thing is None or not action.thing.plural):
        return Known(at, f"the {machine}", machine, "machine", False)
    plural = action.thing.plural if action.thing else None
    reach = REACH if action.what.action in THREADED else REACH * 2
    fit = [known for known in things if at - reach <= known.at < at and known.kind != "tool" and _kind_fits(known, action)]
    same = [known for known in fit if plural is None or known.plural == plural]
    chosen = same or ([] if plural else fit)
    if action.what.action not in THREADED:
        near = [known for known in chosen if not known.aside and at - known.at < REACH]
        chosen = near or chosen
    return chosen[-1] if chosen else None


def _kind_fits(known: Known, action: Action) -> bool:
    if action.what.action in THREADED:
        return known.kind == "fastener"
    if known.kind == "supply":
        return action.what.action in ("apply", "fill", "drain", "clean", "dispose", "move")
    return True


def refers(name: Name | None) -> bool:
    """Whether an action's thing must be found in what was said before."""
    return name is None or name.vague
