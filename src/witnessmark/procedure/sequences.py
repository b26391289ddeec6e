"""Things told one after another and nothing else: "outer bearing, then the washer, and then the nut"."""

from collections.abc import Sequence

from witnessmark.procedure.clauses import begins_clause, has_own
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, kinds, phrase_table, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken, display, is_plural
from witnessmark.procedure.tails import Tail, read_tail
from witnessmark.reading.sightings import Sighting

MOST = 5  # things in one row
SHOWN = 30  # tokens behind an action within which a row of bare names is what is worked on


def read_sequence(spoken: Spoken, index: int, since: int) -> Action | None:
    """Two things or more that follow one another; whether they come off or go on is told by the stage."""
    behind = is_plural(spoken.text(index - 1)) and spoken.sighting_over.get(index - 1) is not None
    begins = begins_clause(spoken, index, since) or (behind and index in spoken.sighting_over)
    if not begins or spoken.text(index - 1) == "and":
        return None
    things, thens = _row(spoken, index)
    single = len(things) == 1 and _next_one(spoken, index, things[0])
    listed = 1 < len(things) <= thens + 1 or (len(things) > 2 and _shown(index, since))
    if not (listed or single):
        return None
    last = things[-1]
    by_hand = not single and spoken.texts[last.end : last.end + 2] == ("by", "hand")
    tail = Tail(["by hand"], last.end + 2) if by_hand else Tail([], last.end)
    if _goes_on(spoken, tail.end):
        return None
    told = last if single else _joined(index, things)
    return Action(index, tail.end, Deed(("fit",), "fit"), told, tail, False, "list", sure=False)


def _row(spoken: Spoken, index: int) -> tuple[list[Name], int]:
    """The things that follow one another from a token on, and how often "then" is said between them."""
    things: list[Name] = []
    thens, i = 0, index
    while len(things) < MOST:
        thing = _thing_at(spoken, i)
        if thing is None or thing.vague or not _is_part(thing):
            break
        things += _each(spoken, thing, begun=bool(things) and not thens)
        after = _past_detail(spoken, thing)
        i = _past_then(spoken, after)
        thens += i > after
        if i == after:
            i += spoken.text(after) == ","
            last = spoken.text(i) == "and" and len(things) > 1 and not thens and not spoken.stops_before(i)
            i += last
            if not (last or _next_bare(spoken, i)):
                break
    return things, thens


def _joined(index: int, things: Sequence[Name]) -> Name:
    """The things of a row as one name."""
    texts, last = [thing.text for thing in things], things[-1]
    seen = tuple(s for thing in things for s in thing.sightings)
    return Name(index, last.end, f"{', '.join(texts[:-1])} and {texts[-1]}", last.head, True, sightings=seen)


def _thing_at(spoken: Spoken, index: int) -> Name | None:
    """The thing named at a token; a bare "nut" before the next thing is one."""
    name, text = read_name(spoken, index), spoken.text(index)
    bare = name is not None and not name.sightings and name.end == index + 1
    if bare and text in phrase_table("verbs", "fasteners")["heads"] and index + 1 in spoken.sighting_over:
        return Name(
            index, index + 1, f"the {text}", text, sightings=(Sighting(index, index + 1, text, "fastener", None),)
        )
    return name


def _each(spoken: Spoken, thing: Name, begun: bool) -> list[Name]:
    """The things of a row that reads like one long name: "nut washer blade". begun: whether a bare row began before."""
    seen = thing.sightings
    fewest = 2 if begun or (seen and seen[0].end - seen[0].start > 1) else 3
    if len(seen) < fewest or seen[0].start != thing.start or any(s.kind not in ("part", "fastener") for s in seen):
        return [thing]
    names = [display(spoken, s) for s in seen]
    return [Name(s.start, s.end, f"the {name}", name, sightings=(s,)) for s, name in zip(seen, names, strict=True)]


def _next_bare(spoken: Spoken, index: int) -> bool:
    """Whether a thing follows with no word between: "nut, washer, blade"."""
    return spoken.text(index) not in word_set("determiners") and spoken.sighting_over.get(index) is not None


def _shown(index: int, since: int) -> bool:
    """Whether a bare row is told while work goes on, and is no list of what one needs."""
    return since > 0 and index - since < SHOWN


def _next_one(spoken: Spoken, index: int, thing: Name) -> bool:
    """Whether one thing alone is what comes next: "then the drum and under it a needle bearing"."""
    led = spoken.text(index - 1) == "then" and spoken.text(index) in ("the", "that", "both", "all")
    follows = spoken.text(thing.end)
    tells_more = spoken.text(thing.end + 1) in word_set("determiners") | word_set("subjects")
    return led and (spoken.stops_before(thing.end) or (follows == "and" and not tells_more))


def _is_part(thing: Name) -> bool:
    """Whether a thing is a part, and its last word no verb of it: "then the wheel turns"."""
    if not thing.sightings or thing.sightings[-1].kind not in ("part", "fastener"):
        return False
    return thing.sightings[-1].end == thing.end or not (kinds(thing.head).verb and thing.head.endswith("s"))


def _past_detail(spoken: Spoken, thing: Name) -> int:
    """The token behind a thing and what is said of it: "first", "with its lip inwards"."""
    if spoken.text(thing.end) == "first":
        return thing.end + 1
    return read_tail(spoken, thing.end).end if spoken.text(thing.end) == "with" else thing.end


def _past_then(spoken: Spoken, index: int) -> int:
    """The token behind "then" or "and then"; the same token where neither is said."""
    i = index
    while spoken.text(i) in (",", "and"):
        i += 1
    return i + 1 if spoken.text(i) == "then" else index


def _goes_on(spoken: Spoken, index: int) -> bool:
    """Whether the last thing has a verb, a particle or a value of its own."""
    text = spoken.text(index)
    own = (
        text in word_set("auxiliaries")
        or text in word_set("prepositions")
        or text in word_set("before_become") - {"now", "then"}
    )
    acts = bool(kinds(text).verb) and text.endswith("s") and not spoken.stops_before(index)
    return own or has_own(spoken, index) or acts or spoken.value_over.get(index) is not None
