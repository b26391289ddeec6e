"""Names that are told together: "the bolt and a big washer", "gloves and glasses"."""

from witnessmark.procedure.lexicon import deeds, kinds, phrase_table, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken


def with_second(spoken: Spoken, name: Name | None, base: str) -> Name | None:
    """A name with a second one joined to it: "the bolt and a big washer"; "draw the pads and the spring out"."""
    if name is None or name.vague or spoken.text(name.end) != "and" or spoken.stops_before(name.end):
        return name
    if spoken.text(name.end + 1) not in word_set("determiners") or spoken.stops_before(name.end + 1):
        return name
    other = read_name(spoken, name.end + 1)
    if other is None or other.vague or not other.sightings or other.head in word_set("dabs"):
        return name
    at = other.end + (spoken.text(other.end) in word_set("before_itself"))
    follows = spoken.text(at)
    moved = (base, follows) in deeds() and (base,) not in deeds()
    if not spoken.stops_before(other.end) and (
        (follows in word_set("particles") - {"through"} and not moved)
        or follows in word_set("auxiliaries")
        or (kinds(follows).verb and follows.endswith("s"))
    ):
        return name
    return _together(name, other)


def both_told(spoken: Spoken, name: Name) -> Name:
    """A name with the one that "and" joins to it, where what follows is told of both: "gloves and glasses go on"."""
    if name.vague or not name.sightings or spoken.text(name.end) != "and" or spoken.stops_before(name.end):
        return name
    worn = phrase_table("verbs", "worn")["things"]
    if name.sightings[-1].kind == "tool" and name.head not in worn:
        return name  # "toothbrush and some vinegar on the keys"
    other = read_name(spoken, name.end + 1)
    if other is None or other.vague or spoken.stops_before(name.end + 1):
        return name
    told = spoken.text(other.end) in word_set("told_of_both") and (other.sightings or other.head in worn)
    return _together(name, other) if told else name


def _together(name: Name, other: Name) -> Name:
    return Name(
        name.start,
        other.end,
        f"{name.text} and {other.text}",
        other.head,
        True,
        name.count,
        (*name.sightings, *other.sightings),
        (*name.sizes, *other.sizes),
    )
