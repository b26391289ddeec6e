"""Which thing "it", "these" and "the big guy" are: the last one named that fits in number and kind."""

from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass, replace

from witnessmark.language.words import singular
from witnessmark.procedure.deed import Action
from witnessmark.procedure.full_names import part_held
from witnessmark.procedure.lexicon import kinds, phrase_table, word_set
from witnessmark.procedure.mentioned import led_aside, never_meant, told_with_many, turned_by
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.selection import suits
from witnessmark.procedure.spoken import Spoken, display, is_nominal, is_plural, plural_of

REACH = 60  # tokens back within which a thing that was worked on is still in focus
NAMED_REACH = 40  # the same for a thing that was only named
ASIDE_REACH = 24  # the same for a thing that was named only to say where
OTHER_NUMBER = 28  # tokens that a thing of the other number stands behind one of the right number
ASIDE = 14  # tokens that a thing named only to say where stands behind the subject of the talk
TAKEN = 24  # tokens that what was taken off stands before the rest where a new one is fitted
WORKED_ON = 4  # tokens that a thing which something was done to stands before one that was only named
HEAVY_REACH = 22  # tokens back within which a heavy part rather than the machine is lifted
TOOL_REACH = 9  # tokens back within which a tool was put on what is pulled
REASON = 7  # tokens of a reason in which a thing is named
HELD = "held"  # kind of a part that only its fastener names
THREADED = frozenset({"tighten", "loosen"})


@dataclass(frozen=True, slots=True)
class Known:
    """A thing that was named. at: token. text: as a guide writes it, article included. name: without article.
    aside: named only to say where, behind a preposition, or why. worked_on: something was done to it there.
    taken: it was taken off there, or told to be past use."""

    at: int
    text: str
    name: str
    kind: str
    plural: bool
    aside: bool = False
    worked_on: bool = False
    taken: bool = False


def known_things(spoken: Spoken, actions: Sequence[Action]) -> list[Known]:
    """Everything named, in order: the things seen, and what actions named in words no vocabulary knows."""
    found = [_of_sighting(spoken, sighting.start) for sighting in spoken.sightings if not never_meant(spoken, sighting)]
    worked_on: set[int] = set()  # tokens of the things that something was done to
    taken: set[int] = set()  # tokens of those that were taken off
    for action in actions:
        thing = action.thing
        if thing is None or thing.vague or thing.head in ("other", "others"):
            continue
        span = range(thing.start, thing.end)
        worked_on |= set(span)
        taken |= set(span) if _takes(action) else set()
        longer = (
            bool(thing.sightings) and thing.head not in thing.sightings[-1].name.split() and " of " not in thing.text
        )
        if longer:
            found = [known for known in found if known.at not in span]  # "pump cover" is no pump
        if longer or (not thing.sightings and thing.head not in word_set("body")):
            found.append(_of_thing(thing, "part" if longer else "other"))
    found += _introduced(spoken) + _held(spoken)
    found = [
        replace(known, worked_on=known.worked_on or known.at in worked_on, taken=known.at in taken) for known in found
    ]
    return sorted(found, key=_place)


def _takes(action: Action) -> bool:
    """Whether an action takes its thing off."""
    return action.what.action in ("remove", "dispose") or action.what.words[-1] in ("off", "out")


def _of_thing(thing: Name, kind: str) -> Known:
    """A thing as an action named it."""
    bare = thing.text.removeprefix("the ").removeprefix("a ").removeprefix("an ")
    text = f"the {bare}" if thing.text.startswith(("a ", "an ")) else thing.text
    return Known(thing.start, text, bare, kind, thing.plural)


def _widened(spoken: Spoken, index: int, name: str) -> str:
    """A short head with the nouns said before it: "filter cap"."""
    sighting = spoken.sighting_over[index]
    if sighting.end - sighting.start > 1 or sighting.item is not None or sighting.name != spoken.texts[index]:
        return name
    before = spoken.text(index - 1)
    plain = (
        is_nominal(before)
        and kinds(before).noun
        and not kinds(before).verb
        and spoken.sighting_over.get(index - 1) is None
    )
    return (
        f"{before} {name}"
        if plain and not spoken.stops_before(index) and before not in word_set("name_words")
        else name
    )


def _introduced(spoken: Spoken) -> list[Known]:
    """Things brought up in words no vocabulary knows: "there's some dirt under here"."""
    found = []
    for i in range(len(spoken.texts) - 2):
        if spoken.texts[i] in ("there", "here") and spoken.texts[i + 1] in ("'s", "is", "are"):
            at = i + 3 if spoken.text(i + 2) in ("about", "like", "just", "your", "also") else i + 2
            name = read_name(spoken, at)
            if (
                name is not None
                and not name.vague
                and not name.sightings
                and name.head not in word_set("body") | word_set("damage")
                and not {"wrong", "same", "problem", "good", "bad"} & set(name.text.split())
            ):
                bare = (
                    name.text.removeprefix("the ")
                    .removeprefix("a ")
                    .removeprefix("an ")
                    .split(" of ")[-1]
                    .removeprefix("the ")
                )
                found.append(Known(at, f"the {bare}", bare, "other", name.plural))
    return found


def _held(spoken: Spoken) -> list[Known]:
    """The parts that the fasteners named hold: with "the prop nut off" it is the prop that slides off."""
    named = [(s.start, singular(spoken.texts[s.end - 1])) for s in spoken.sightings if s.kind != "tool"]
    parts = {head for _, head in named}
    found = []
    for sighting in spoken.sightings:
        name = part_held(display(spoken, sighting)) if sighting.kind == "fastener" else ""
        head, at = name.split()[-1:], sighting.start
        lately = any([part] == head and at - ASIDE <= place < at for place, part in named)
        if name and not lately and (sighting.item is not None or name.split()[-1] in parts):
            found.append(Known(at, f"the {name}", name, HELD, is_plural(name)))
    return found


def _of_sighting(spoken: Spoken, index: int) -> Known:
    sighting = spoken.sighting_over[index]
    name = _widened(spoken, index, display(spoken, sighting))
    many = told_with_many(spoken, sighting)
    name = plural_of(name) if many else name
    turned = turned_by(spoken, index)
    return Known(
        index,
        f"the {name}",
        name,
        sighting.kind,
        many or is_plural(name.split(",")[0].split()[-1]),
        not turned and (led_aside(spoken, index) or _in_reason(spoken, index)),
        turned,
    )


def _in_reason(spoken: Spoken, index: int) -> bool:
    """Whether a thing is named in a reason or a condition: "because the bearing jumps out"."""
    for i in range(index - 1, max(index - REASON, -1), -1):
        if spoken.texts[i] in word_set("reasons"):
            return True
        if spoken.stops_before(i + 1) or spoken.texts[i] in ("and", "then", "so"):
            return False
    return False


def _place(known: Known) -> int:
    return known.at


def in_focus(things: Sequence[Known], action: Action, machine: str, engine: str = "") -> Known | None:
    """The thing meant by an action whose own words do not say; None where none fits. things: in order of place."""
    at = action.start
    if engine and _is_engine(action):
        return Known(at, f"the {engine}", engine, "machine", False)
    if _is_whole(action) and (action.thing is None or not action.thing.plural):
        part = _heavy_before(things, action) if action.what.action in ("lift", "lower") else None
        return part or Known(at, f"the {machine}", machine, "machine", False)
    tool = _tool_before(things, action)
    if tool is not None:
        return tool
    plural = action.thing.plural if action.thing else None
    fit = [
        known
        for known in things[bisect_left(things, at - REACH, key=_place) : bisect_left(things, at, key=_place)]
        if at - known.at <= _reach(known, action)
        and (known.kind == "fastener" or known.name.split()[-1] not in word_set("body"))
        and known.kind != "tool"
        and _kind_fits(known, action)
        and suits(known.name, known.kind, action.what)
        and action.what.words[0] not in known.name.split()
        and not (known.plural and action.thing is not None and action.thing.feminine)
        and not (action.thing is not None and action.thing.which == "new" and _only_named(known))
    ]
    if not fit:
        stopped = " ".join(action.what.words) in word_set("stops_engine")
        return Known(at, f"the {engine or machine}", engine or machine, "machine", False) if stopped else None
    if action.thing is not None and action.thing.which and action.thing.which not in ("new", "old"):
        plural = True  # "the middle one" is one of several
        fit = [known for known in fit if known.plural]
        if not fit:
            return None
    if plural and action.thing is not None and action.thing.count and any(known.plural for known in fit):
        fit = [known for known in fit if known.plural]  # "crack all three"
    other_number = [plural is not None and known.plural != plural for known in fit]
    aside = [known.aside and action.what.action not in THREADED for known in fit]
    new = action.thing is not None and action.thing.which == "new"
    far = [
        at
        - known.at
        + OTHER_NUMBER * number
        + ASIDE * side
        - WORKED_ON * known.worked_on
        - TAKEN * (new and known.taken)
        for known, number, side in zip(fit, other_number, aside, strict=True)
    ]
    return min(zip(far, fit, strict=True), key=lambda pair: pair[0])[1]


def _only_named(known: Known) -> bool:
    """Whether a part was spoken of and not worked on: it is hardly the one of which a new one is fitted."""
    return known.kind == "part" and not known.worked_on


def _heavy_before(things: Sequence[Known], action: Action) -> Known | None:
    """The heavy part that the talk was of just before "it" is lifted or lowered: "the motor hangs on the belt so lift it"."""
    if action.what.words[0] in word_set("lifts_machine"):
        return None
    near = [k for k in things if 0 < action.start - k.at <= HEAVY_REACH and not k.aside and k.kind == "part"]
    return near[-1] if near and near[-1].name.split()[-1] in word_set("heavy") else None


def _tool_before(things: Sequence[Known], action: Action) -> Known | None:
    """The tool just put on, where "it" is pulled towards the reader: "wrench on the nut and pull it towards you"."""
    if action.what.words[0] not in word_set("pressed") or not {"toward you", "towards you"} & set(action.tail.phrases):
        return None
    near = [known for known in things if 0 < action.start - known.at <= TOOL_REACH and known.kind == "tool"]
    return near[-1] if near else None


def _by_hand(action: Action) -> bool:
    """Whether the fingers do it or several things are meant: no engine is started so."""
    return "by hand" in action.tail.phrases or (action.thing is not None and action.thing.plural)


def _is_engine(action: Action) -> bool:
    """Whether "it" is the engine, from what is done: it is started, let idle, turned over by hand."""
    words, phrases = action.what.words, action.tail.phrases
    if words == ("let",) and phrases and phrases[0].split()[0] in word_set("runs_warm"):
        return True
    if words == ("turn", "over"):
        return _by_hand(action)
    return words[0] in word_set("starts_engine") and not _by_hand(action)


def _is_whole(action: Action) -> bool:
    """Whether "it" is the whole machine, from what is done: it is raised, wheeled out, plugged in, put in gear."""
    words, phrases, thing = action.what.words, action.tail.phrases, action.thing
    if _stood(action):
        return True
    if words[0] in word_set("moves_machine") and action.tail.particle not in ("off", "on", "away"):
        return thing is None or thing.head != "lot"
    if action.what.action in ("lift", "lower") and not words[0].startswith("un"):
        part = set(phrases) & word_set("lifts_part") or {action.tail.particle, words[-1], *phrases} & {"off", "out"}
        return (thing is not None and thing.feminine) or not part
    if words in (("plug", "in"), ("switch", "on"), ("switch", "off"), ("let", "down")):
        return True
    if words == ("unplug",) and any(phrase.split()[-1] in word_set("mains") for phrase in phrases):
        return True
    if thing is not None and thing.feminine and action.what.action in word_set("done_to_her"):
        return True
    geared = ("in neutral", "in forward", "in reverse", "in park", "into neutral")
    if any("gear" in phrase or phrase in geared for phrase in phrases):
        return True
    return action.what.action == "start" and not _by_hand(action)


def _stood(action: Action) -> bool:
    """Whether "it" is stood up or left up as only a whole machine is: nobody stands a part up without saying where."""
    words, phrases = action.what.words, action.tail.phrases
    up = "up" in (action.tail.particle, words[-1]) or phrases[:1] in (["up"], ["up again"], ["back up"])
    led = [phrase for phrase in phrases if phrase.split()[0] in word_set("linking")]
    if words[0] == "leave":
        return up and bool(led) and led[0].split()[-1] in word_set("machine_rests")
    return words[0] == "stand" and (up or action.tail.particle == "back up") and not led


def keep_in_focus(things: list[Known], known: Known, action: Action) -> None:
    """What was just spoken of as "it" is named once more, so far as what comes next is concerned."""
    if known.kind != "machine":
        agrees = action.thing is None or action.thing.plural == known.plural
        taken = known.taken or (_takes(action) and agrees)
        insort(
            things, replace(known, at=action.start - WORKED_ON, aside=False, worked_on=True, taken=taken), key=_place
        )


def _reach(known: Known, action: Action) -> int:
    """Tokens within which a thing is still what "it" can be."""
    if known.worked_on or action.what.action in THREADED:
        return REACH
    return ASIDE_REACH if known.aside else NAMED_REACH


def _kind_fits(known: Known, action: Action) -> bool:
    flows = singular(known.name.split(",")[0].split()[-1]) in phrase_table("measures", "fluids")["words"]
    if action.what.words == ("let",) and action.tail.phrases:
        does = action.tail.phrases[0].split()[0]
        if does == "cool" and not {singular(word) for word in known.name.split()} & word_set("gets_hot"):
            return False
        return flows == (does in word_set("flows"))
    if action.thing is not None and action.thing.which in ("new", "old") and not action.thing.plural:
        return known.kind == "part" or (known.kind == "fastener" and not known.plural)
    if action.what.action in THREADED:
        return known.kind == "fastener"
    if known.kind == HELD:
        return bool({action.what.words[-1], action.tail.particle} & {"off", "out", "away"})
    if known.kind == "fastener" and action.what.action in ("support", "lift", "lower", "route", "drain"):
        return False
    if known.kind == "fastener" and action.what.words[0] == "slide":
        return singular(known.name.split()[-1]) in word_set("sliding")
    if action.what.action in ("fill", "drain") and known.kind in ("fastener", "other"):
        return False
    if action.what.words[0] == "pour":
        return flows
    if known.kind == "supply" or flows:
        if action.what.words[0] == "press" and singular(known.name.split()[-1]) not in word_set("countable_supplies"):
            return False
        return action.what.action in ("apply", "fill", "drain", "clean", "dispose", "move")
    return True


def refers(name: Name | None) -> bool:
    """Whether an action's thing must be found in what was said before."""
    return name is None or name.vague
