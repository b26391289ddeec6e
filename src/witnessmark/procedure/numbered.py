"""Screws told by their number and their kind of drive alone: "side panel, four of these, phillips", "caps, one each side, slotted"."""

from witnessmark.procedure.clauses import begins_clause
from witnessmark.procedure.deed import Action
from witnessmark.procedure.full_names import singular_of
from witnessmark.procedure.lexicon import Deed, form_said, phrase_table, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail, read_tail

DRIVE = 9  # tokens behind a number within which the drive of its screws is told


def read_numbered(spoken: Spoken, index: int, since: int) -> Action | None:
    """The screws of the thing named at a token; told only while things come apart.

    A tool size behind them is read with the size.
    """
    if not (begins_clause(spoken, index, since) or spoken.text(index) == "the"):
        return None
    thing = read_name(spoken, index)
    if thing is None or thing.vague or _is_tool(thing):
        return None
    placed = read_tail(spoken, thing.end)
    at = _past_comma(spoken, thing.end if placed.particle else placed.end)
    found = _each(spoken, thing, at) if thing.plural else _counted(spoken, thing, at)
    if found is None or any(i in spoken.value_over for i in range(index, found.end + DRIVE)):
        return None
    return Action(
        index, found.end, Deed(("remove",), "remove"), found, Tail([], found.end), False, "number", sure=False
    )


def _each(spoken: Spoken, thing: Name, at: int) -> Name | None:
    """ "Caps, one each side, slotted": what is screwed is taken out by itself."""
    size = form_said(spoken.texts, at, "verbs", "one_each")
    if not size or not _drive(spoken, at + size):
        return None
    return Name(thing.start, at + size, thing.text, thing.head, True, thing.count, thing.sightings)


def _counted(spoken: Spoken, thing: Name, at: int) -> Name | None:
    """ "Cover, four of these", "the hood, there's two in it, phillips"."""
    has = form_said(spoken.texts, at, "verbs", "has_count")
    count = spoken.text(at + has)
    size = next((n for n in (2, 1) if _is_counted(spoken, at + has + 1, n)), 0)
    end = at + has + 1 + size
    if count not in word_set("fastener_counts") or not size or spoken.text(end) in word_set("auxiliaries"):
        return None
    if not (_drive(spoken, at + has) or (not has and thing.sightings and spoken.stops_before(end))):
        return None
    text = f"the {count} {singular_of(thing.text.removeprefix('the '))} screws"
    return Name(thing.start, end, text, "screws", True, count, thing.sightings)


def _is_counted(spoken: Spoken, at: int, size: int) -> bool:
    """Whether what is counted are screws that are not named: "of these", "in it"; or their drive: "phillips"."""
    said = " ".join(spoken.texts[at : at + size])
    known = said in phrase_table("verbs", "fasteners")["counted"] or said in word_set("drives")
    return known and len(said.split()) == size


def _drive(spoken: Spoken, at: int) -> bool:
    """Whether a kind of screw head is told near behind a token."""
    return any(spoken.text(i) in word_set("drives") for i in range(at, at + DRIVE))


def _is_tool(thing: Name) -> bool:
    last = thing.sightings[-1] if thing.sightings else None
    return last is not None and last.end == thing.end and last.kind in ("tool", "supply")


def _past_comma(spoken: Spoken, at: int) -> int:
    while spoken.text(at) in (",", "next", "then", "now"):
        at += 1
    return at
