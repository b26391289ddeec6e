"""Work told by its tool: "wire brush on the hub face", "emery cloth over the linings and inside the bell"."""

from collections.abc import Sequence
from dataclasses import replace

from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, phrase_table, word_set
from witnessmark.procedure.names import Name, read_name, with_place
from witnessmark.procedure.spoken import Spoken, is_plural
from witnessmark.procedure.tails import Tail, read_tail

WITHIN = {"inside": "the inside of", "under": "the underside of", "underneath": "the underside of"}


def read_with_tool(spoken: Spoken, tool: Name, index: int) -> Action | None:
    """ "Wire brush on the hub face": the thing is brushed with the wire brush. index: where the clause begins."""
    metered = read_metered(spoken, tool, index)
    if metered is not None:
        return metered
    tool = _with_stuff(spoken, tool)
    at = _place(spoken, tool)
    what = _does(spoken, tool, at)
    if what is None or spoken.stops_before(at) or _only_lies_there(spoken, index):
        return None
    target = read_name(spoken, at + 1)
    if target is None or not _worked_on(spoken, tool, target, what, at):
        return None
    if target.sightings and target.sightings[-1].kind in ("tool", "supply") and _listed(target):
        return _with_stuff_on(spoken, tool, target, index)
    target, end = _with_second(spoken, replace(target, text=_within(spoken.text(at), target)), what)
    tail = read_tail(spoken, end)
    if not _told_by_verb(tool, what) and not (tool.sizes and tool.head in word_set("drivers")):
        tail.phrases.insert(0, f"with {_with_article(tool)}")
    tail.sizes += tool.sizes
    negative = spoken.text(index - 1) == "no"
    return Action(index, tail.end, what, target, tail, negative, "thing", sure=True)


def _with_stuff(spoken: Spoken, tool: Name) -> Name:
    """A tool with the stuff on it: "cotton bud with alcohol", "toothbrush and some vinegar"."""
    joined = spoken.text(tool.end) in ("with", "and") and bool(_listed(tool)) and not spoken.stops_before(tool.end)
    stuff = read_name(spoken, tool.end + 1) if joined else None
    if stuff is None or not stuff.sightings or stuff.sightings[-1].kind != "supply":
        return tool
    if spoken.text(stuff.end) not in word_set("tool_places") or spoken.stops_before(stuff.end):
        return tool
    return replace(tool, end=stuff.end, text=f"{_with_article(tool)} {spoken.text(tool.end)} {stuff.text}")


def _with_stuff_on(spoken: Spoken, stuff: Name, tool: Name, index: int) -> Action | None:
    """ "A bit of isopropyl on a cotton bud round the hook race": the tool works with the stuff on it."""
    return read_with_tool(spoken, replace(tool, text=f"{stuff.text} on {tool.text}"), index)


def read_metered(spoken: Spoken, tool: Name, index: int) -> Action | None:
    """ "Meter on ohms, one probe each pin", "meter from the pin to the bare metal"."""
    if not (measures(tool) or tool.head == "meter") or _only_lies_there(spoken, index):
        return None
    if tool.text.split()[-1] == "gauge" and "feeler" in tool.text and spoken.text(tool.end) in ("under", "behind"):
        return _gap(spoken, tool, index)
    quantity, at = _quantity(spoken, tool.end)
    leads = ("from", "between", "across") if quantity else ("from", "between")
    told = (_probes(spoken, at) if quantity else None) or _from_to(spoken, at, leads)
    if told is None:
        return None
    phrase, end = told
    what = Deed(("measure",), "measure")
    if quantity:
        return Action(index, end, what, Name(index, end, f"the {quantity}"), Tail([phrase], end), False, "thing", True)
    tail = Tail([phrase, f"with {tool.text}"], end)
    return Action(index, end, what, None, tail, False, "saying", sure=True)


def _gap(spoken: Spoken, tool: Name, index: int) -> Action | None:
    """ "Feeler gauge under the string": the gap there is measured."""
    name = read_name(spoken, tool.end + 1)
    if name is None or name.vague:
        return None
    tail = read_tail(spoken, name.end)
    tail.phrases.insert(0, f"with {tool.text}")
    gap = Name(index, name.end, f"the gap {spoken.text(tool.end)} {name.text}", "gap")
    return Action(index, tail.end, Deed(("measure",), "measure"), gap, tail, False, "thing", sure=True)


def _quantity(spoken: Spoken, index: int) -> tuple[str, int]:
    """What a meter is set to measure, "" where that is not told; and the token after it."""
    table = phrase_table("tools", "quantities")
    at = index
    while spoken.text(at) in ("set", "to", "on", "in", "the", "dc", "ac") and at < index + 4:
        at += 1
    found: str = table.get(spoken.text(at), "")
    if not found or at == index:
        return "", index
    at += 1
    while spoken.text(at) in word_set("after_quantity"):
        at += 1
    return found, at


def _probes(spoken: Spoken, index: int) -> tuple[str, int] | None:
    """ "One probe each pin", "one lead on the terminal and the other on the frame"."""
    if spoken.text(index) not in ("one", "a") or spoken.text(index + 1) not in ("probe", "lead", "prod"):
        return None
    at = index + 2 + (spoken.text(index + 2) in ("on", "to", "at"))
    first = read_name(spoken, at)
    if first is None or first.vague:
        return None
    joined = [spoken.text(first.end + n) for n in range(4)]
    if joined[0] in ("and", ",") and "other" in joined:
        other = first.end + joined.index("other") + 1
        second = read_name(spoken, other + 1) if spoken.text(other) in ("on", "to", "at") else None
        if second is not None and not second.vague:
            return f"with one probe on {first.text} and the other on {second.text}", second.end
    one = first.text.removeprefix("each ")
    across = one != first.text and not is_plural(one) and not one.endswith(("s", "x", "h"))
    return f"across the {one}s" if across else f"with one probe on {first.text}", first.end


def _from_to(spoken: Spoken, index: int, leads: Sequence[str]) -> tuple[str, int] | None:
    """ "From the pin on the plug to the bare metal", "between the red wire and the case", "across the two studs"."""
    lead = spoken.text(index)
    name = read_name(spoken, index + 1) if lead in leads else None
    if name is None or name.vague:
        return None
    first = with_place(spoken, name) if lead == "from" else name
    if lead == "across":
        return f"across {first.text}", first.end
    joined = "to" if lead == "from" else "and"
    second = read_name(spoken, first.end + 1) if spoken.text(first.end) == joined else None
    if second is None or second.vague:
        return None
    return f"{lead} {first.text} {joined} {second.text}", second.end


def kept_in(tool: Name, phrase: str) -> bool:
    """Whether a tool is only told to be where it is kept: "heat gun in the drawer"."""
    kind = tool.sightings[-1].kind if tool.sightings else ""
    return kind == "tool" and phrase.startswith("in ") and phrase.split()[-1] in word_set("stores")


def used_on(spoken: Spoken, index: int, tool: Name | None, mood: str) -> Action | None:
    """ "Put the calipers across the drum" is "measure the drum with the calipers"."""
    if tool is None or tool.vague or tool.head in word_set("drivers"):
        return None
    found = read_with_tool(spoken, tool, index)
    return replace(found, negative=mood == "dont") if found is not None else None


def done_about(verb: str, phrases: Sequence[str]) -> bool:
    """Whether a verb needs no thing beside the place that was told: "wipe around the dipstick"."""
    return verb in word_set("done_about") and phrases[0].split()[0] in word_set("about_places")


def measures(thing: Name) -> bool:
    """Whether a thing is a tool to measure with."""
    known = (bool(thing.sightings) and thing.sightings[-1].kind == "tool") or thing.head in word_set("tools_alone")
    return known and _listed(thing)[:1] == ["measure"]


def _listed(tool: Name) -> list[str]:
    """What data/procedure/tools.toml has done with a tool: verb and class."""
    table = phrase_table("tools", "does")
    names = (tool.sightings[-1].name if tool.sightings else _bare(tool.text), tool.head)
    return next((table[name] for name in names if name in table), [])


def _bare(text: str) -> str:
    return text.removeprefix("the ").removeprefix("an ").removeprefix("a ")


def _does(spoken: Spoken, tool: Name, at: int) -> Deed | None:
    """What is done with a tool that stands before a place."""
    place = spoken.text(at)
    known = bool(tool.sightings) and tool.sightings[-1].kind in ("tool", "supply")
    across = tool.head in word_set("measured_across") and place == "across"
    alone = bool({tool.head, _bare(tool.text)} & word_set("tools_alone"))
    if not (known or across or alone) or place not in word_set("tool_places"):
        return None
    found = [tool.head, "clean"] if _is_stroke(tool) else _listed(tool)
    if not found and tool.sizes and tool.head in word_set("drivers") and place == "on":
        found = ["undo", "loosen"]
    if not found or (place in WITHIN and found[1] not in word_set("surface_work")):
        return None
    return Deed(tuple(found[0].split()), found[1])


def _is_stroke(tool: Name) -> bool:
    """Whether what is done is named with its stuff: "a wipe of isopropyl"."""
    return tool.head in word_set("strokes") and " of " in tool.text


def _place(spoken: Spoken, tool: Name) -> int:
    """The token of the place, past what only softens it: "heat gun now all around the hub"."""
    at = tool.end
    while spoken.text(at) in word_set("before_tool_place") and not spoken.stops_before(at):
        at += 1
    return at


def _only_lies_there(spoken: Spoken, index: int) -> bool:
    """Whether it is told that a tool is somewhere: "there was a scraper in the box", "he had a brush on his drill"."""
    before = spoken.text(index - 1)
    return not spoken.stops_before(index) and (
        before in word_set("tells_of_having") or (before == "'s" and spoken.text(index - 2) == "there")
    )


def _worked_on(spoken: Spoken, tool: Name, target: Name, what: Deed, at: int) -> bool:
    """Whether what stands behind the place can be worked on with the tool."""
    place, head = spoken.text(at), target.head
    if target.vague:
        plain = tool.head not in ("gauge", "indicator")
        return spoken.text(at + 1) in word_set("objects") and measures(tool) and plain
    own = head in word_set("body") and not target.sightings and spoken.text(at + 1) != "the"
    if head in word_set("rests") or head == "everything" or own:
        return False
    if place in ("in", "inside") and head in word_set("stores"):
        return False
    if place == "on" and spoken.text(at + 1) in ("a", "an") and not _listed(target):
        return False  # "emery on a flat plate": what it lies on
    stuff = bool(tool.sightings) and tool.sightings[-1].kind == "supply"
    if stuff and place == "in" and what.words[0] == "clean":
        return False  # "vinegar in the bowl" is put there
    # a rag in a hole keeps dirt out of it
    return not (what.words[0] == "wipe" and (place == "in" or head in word_set("openings")))


def _within(place: str, target: Name) -> str:
    lead = WITHIN.get(place)
    return f"{lead} {target.text}" if lead else target.text


def _with_second(spoken: Spoken, target: Name, what: Deed) -> tuple[Name, int]:
    """The target with a second place joined to it: "over the linings and inside the bell"; and the token after it."""
    place = spoken.text(target.end + 1)
    joined = spoken.text(target.end) == "and" and place in word_set("tool_places")
    if not joined or (place in WITHIN and what.action not in word_set("surface_work")):
        return target, target.end
    second = read_name(spoken, target.end + 2)
    if second is None or second.vague or spoken.text(second.start) not in word_set("determiners"):
        return target, target.end
    text = f"{target.text} and {_within(place, second)}"
    return replace(target, text=text, plural=True, sightings=(*target.sightings, *second.sightings)), second.end


def _told_by_verb(tool: Name, what: Deed) -> bool:
    """Whether the verb tells the tool too: "brush the face", "vacuum the fins"."""
    said = {"the", "a", "some", *what.words, f"{what.words[0]}r"} | word_set("cleaners_by_verb")
    return set(tool.text.split()) <= said


def _with_article(tool: Name) -> str:
    """A tool as a guide names it; of stuff that comes in pieces one is meant."""
    text = tool.text.partition(" of ")[2] if _is_stroke(tool) else tool.text
    first = text.split()[0]
    stuff = " on " in text or _listed(tool)[:1] == ["sand"]  # emery cloth is cut from the roll
    if stuff or tool.head not in word_set("pieces_of_stuff") or first in word_set("determiners"):
        return text
    return f"{'an' if first[0] in 'aeiou' else 'a'} {text}"
