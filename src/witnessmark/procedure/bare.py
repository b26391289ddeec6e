"""Things named with a place and no verb: "drawer out", "tray under the hose", "wire brush on the hub face"."""

from dataclasses import replace

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.clauses import begins_clause, clause_ahead, own_clause
from witnessmark.procedure.commas import past_commas
from witnessmark.procedure.deed import Action
from witnessmark.procedure.dirt import read_dirt
from witnessmark.procedure.lexicon import Deed, deed, deeds, form_of, form_said, kinds, phrase_table, word_set
from witnessmark.procedure.mains import read_mains
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.placements import is_put, off_its_place
from witnessmark.procedure.spoken import Spoken, is_plural
from witnessmark.procedure.substances import read_substance
from witnessmark.procedure.tails import Tail, read_tail
from witnessmark.procedure.tooling import kept_in, measures, read_metered, read_with_tool


def told(start: int, tail: Tail, what: Deed, thing: Name, sure: bool = True, negative: bool = False) -> Action:
    """An action told of a thing, at tokens start..tail.end."""
    return Action(start, tail.end, what, thing, tail, negative, "thing", sure=sure)


def read_bare(spoken: Spoken, thing: Name, index: int, since: int) -> Action | None:
    """What is done to a thing that is named without a verb."""
    mains = read_mains(spoken, index)
    if mains is not None:
        return mains
    twice = spoken.text(thing.end - 2) == spoken.text(thing.end - 1)  # "tap tap on that": blows, no tap
    if (
        thing.vague
        or twice
        or _runs_by_itself(spoken, thing.start, thing.end)
        or spoken.text(index) in ("either", "any", "every")
    ):
        return None
    switched = _switched(spoken, thing, index)
    if switched is not None:
        return switched
    opens = begins_clause(spoken, index, since) or _behind_noun(spoken, index)
    opens = opens or spoken.text(index - 1) in word_set("clause_ends")
    off = off_its_place(spoken, thing) if opens else None
    if off is not None:
        return told(index, off, Deed(("remove" if is_fastener(thing) else "pull",), "remove"), thing)
    tail = _own_particle(spoken, thing) or read_tail(spoken, thing.end)
    if _runs_by_itself(spoken, thing.start, tail.end):
        return None  # "the tap under the sink leaks"
    if spoken.text(tail.end) in word_set("effects") and not spoken.stops_before(tail.end):
        return None  # "oil on the belt makes it slip"
    if pulled_out(tail) and spoken.text(tail.end) not in ("gets", "get", "is", "are", "'s"):
        return told(index, tail, Deed(("pull",), "remove"), thing)
    return (
        read_dirt(spoken, thing, index)
        or read_substance(spoken, thing, index, since)
        or read_metered(spoken, thing, index)
        or _underneath(spoken, thing, index, tail)
        or _moved_by_particle(spoken, thing, index, tail)
        or _by_hand(thing, index, tail)
        or _first(spoken, thing, index, since)
        or _had_done(spoken, thing, index, since)
        or read_with_tool(spoken, thing, index)
        or _put(spoken, thing, index, tail, since)
    )


def _runs_by_itself(spoken: Spoken, start: int, end: int) -> bool:
    """Whether the last of some words that were taken for a name is its verb: "the hose runs behind the tank"."""
    last = end - 1
    verb = spoken.text(last) in word_set("runs_by_itself") and last not in spoken.sighting_over
    before = spoken.text(last - 1)
    return verb and last > start and not is_plural(before) and before not in word_set("determiners")


def _own_particle(spoken: Spoken, thing: Name) -> Tail | None:
    """The particle alone where the machine is set down behind it: "stand out, down on the ground".

    "Deck back down on its feet" sets down the deck.
    """
    particle = spoken.text(thing.end)
    counted = before_count(spoken, thing.end)
    if counted is not None:
        return counted
    size = sets_down(spoken, thing.end + 1)
    if particle == "back" and size:
        return Tail(["to the ground"], thing.end + 1 + size, "down")
    alone = particle in phrase_table("verbs", "goes") and size
    return Tail([], thing.end + 1, particle) if alone else None


def before_count(spoken: Spoken, index: int) -> Tail | None:
    """The particle alone where fasteners are counted behind it: "panel off, two clips"."""
    counts = spoken.text(index) in ("off", "out") and spoken.text(index + 1) in word_set("fastener_counts")
    return Tail([], index + 1, spoken.text(index)) if counts else None


def sets_down(spoken: Spoken, index: int) -> int:
    """How many tokens say that the machine comes down, 0 where none do."""
    return form_said(spoken.texts, index, "verbs", "set_down")


def _switched(spoken: Spoken, thing: Name, index: int) -> Action | None:
    """ "Water off": turn off the water."""
    table = phrase_table("verbs", "switched")
    follows = spoken.text(thing.end)
    if thing.head not in table["things"] or follows not in ("on", "off") or _on_a_place(spoken, thing.end + 1):
        return None
    if follows == "on" and spoken.text(thing.end + 1) in word_set("determiners") - {"this"}:
        return None  # "soapy water on the joints"
    if not thing.text.startswith(("the ", "both ", "all ")):
        thing = replace(thing, text=f"the {thing.text}")
    verb, action = table[follows]
    return told(index, Tail([], thing.end + 1), Deed(tuple(verb.split()), action), thing)


def _on_a_place(spoken: Spoken, index: int) -> bool:
    """Whether "on" leads to a place: "the foot switch on deck"."""
    if spoken.stops_before(index) or spoken.text(index) in word_set("fillers"):
        return False
    place = read_name(spoken, index)
    acts = kinds(spoken.text(index)).verb == spoken.text(index) and spoken.text(index) not in spoken.nouns
    if place is None or place.vague or acts or clause_ahead(spoken, index):
        return False
    return spoken.text(index) in word_set("determiners") or spoken.stops_before(place.end) or bool(place.sightings)


def _underneath(spoken: Spoken, thing: Name, index: int, tail: Tail) -> Action | None:
    """ "Tray under": what catches drips is put underneath."""
    catches = (thing.sightings and thing.sightings[-1].kind in ("tool", "supply")) or thing.head in word_set("catchers")
    if spoken.text(thing.end) not in ("under", "underneath") or not catches:
        return None
    listed = thing.head in word_set("catchers") and clause_ahead(spoken, thing.end + 1, placed=True)
    if not listed and (tail.end != thing.end or not ends_before(spoken, thing.end + 1)):
        return None
    return told(index, Tail(["underneath"], thing.end + 1), Deed(("put",), "fit"), thing)


def _moved_by_particle(spoken: Spoken, thing: Name, index: int, tail: Tail) -> Action | None:
    """ "Drawer out", "wheels on"."""
    if tail.particle not in phrase_table("verbs", "goes") or _leads_on(spoken, tail.end):
        return None
    if spoken.text(tail.end) in word_set("auxiliaries") or _not_fitted(spoken, thing, tail.particle):
        return None
    value = spoken.value_over.get(tail.end)
    counted = spoken.text(tail.end) in word_set("numbers") or (value is not None and value.kind != "torque")
    if tail.particle == "in" and not tail.phrases and counted:
        return None  # "in one go", "in fourteen ounces"
    indefinite = spoken.text(thing.start) in ("a", "an") and tail.particle in ("up", "down", "on", "in", "over")
    if indefinite or (tail.particle.removeprefix("back ") in ("up", "down") and is_fastener(thing)):
        return None
    skip = 1 if spoken.text(thing.end) in ("just", "all", "both", "then") else 0
    at_once = spoken.text(thing.end + skip) in word_set("particles")
    if not at_once or not (tail.phrases or ends_before(spoken, tail.end)):
        return None
    if tail.phrases and spoken.text(tail.end) in ("is", "'s", "are", "'re", "was"):
        return None  # "the bead up in the exhaust is the sensor" tells where, not what to do
    if tail.particle == "on" and tail.phrases and read_with_tool(spoken, thing, index) is not None:
        return None
    what = (
        None
        if tail.particle in word_set("known_only") and not thing.sightings and thing.head not in word_set("machines")
        else deed_of(spoken, thing, tail.particle)
    )
    if what is None:
        return None
    return put_or(what, index, past_commas(spoken, tail), thing, sure=bool(thing.sightings))


def put_or(what: Deed, index: int, tail: Tail, thing: Name, sure: bool) -> Action:
    """What is done so that a thing is where its particle says; a tool is put there."""
    if what.words == ("fit",) and is_put(thing, tail):
        from_where = tail.phrases[0].startswith("from ")
        what = Deed(("put", tail.particle) if from_where else ("put",), "fit")
    if what.words == ("lower",) and tail.phrases[:1] == ["out"]:
        what, tail.phrases = Deed(("remove",), "remove"), tail.phrases[1:]
    if what.words == ("raise",) and thing.head == "jack" and not tail.phrases:
        return Action(index, tail.end, what, None, Tail([], tail.end), False, "thing", sure)  # "jack up": with it
    if what.words == ("raise",) and tail.phrases and tail.phrases[0].startswith("out"):
        what = Deed(("lift",), "remove")
    tail.particle = ""
    return told(index, tail, what, thing, sure=sure)


def _leads_on(spoken: Spoken, index: int) -> bool:
    """Whether a pronoun behind a particle is what the particle leads to, and begins no clause of its own."""
    if spoken.text(index) in ("the", "that") and not spoken.stops_before(index):
        other = read_name(spoken, index)
        if other is not None and other.head in ("one", "ones"):
            return True  # "the wire off the old one"
    return spoken.text(index) in ("it", "them", "that") and not own_clause(spoken, index)


def _not_fitted(spoken: Spoken, thing: Name, particle: str) -> bool:
    """Whether a thing is a tool that is only fetched or laid away, or held on what it measures."""
    if thing.head in word_set("fetched") or thing.head in word_set("drivers"):
        return True
    if not thing.sightings or thing.sightings[-1].kind != "tool" or thing.head in word_set("stays_on"):
        return False
    worn = any(word in phrase_table("verbs", "worn")["things"] for word in (thing.head, thing.sightings[-1].name))
    screwed = thing.head == "gauge" and particle in ("on", "in") and spoken.text(thing.end + 1) == "where"
    return not worn and not screwed and (particle in ("out", "away", "down", "off") or measures(thing))


def _by_hand(thing: Name, index: int, tail: Tail) -> Action | None:
    """ "Nuts by hand": they are started by hand."""
    if tail.particle or not thing.sightings or not tail.phrases:
        return None
    if tail.phrases[0] in ("by hand", "in by hand"):
        tail.phrases[0] = "by hand"
        turned = thing.head in word_set("turned_by_hand")
        started = is_fastener(thing) or thing.head in word_set("threaded")
        what = Deed(("turn",), "turn") if turned else Deed(("start",), "fit") if started else None
        return told(index, tail, what, thing, sure=False) if what else None
    if tail.phrases[0] in ("hand tight", "finger tight", "snug"):
        return told(index, tail, Deed(("tighten",), "tighten"), thing, sure=False)
    return None


def _first(spoken: Spoken, thing: Name, index: int, since: int) -> Action | None:
    """ "Top cap first": what comes first comes off; whether it is fitted is told by the stage."""
    if not begins_clause(spoken, index, since) or not thing.sightings or thing.sightings[-1].kind in ("tool", "supply"):
        return None
    if spoken.text(thing.end) != "first" or spoken.stops_before(thing.end):
        return None
    follows = spoken.text(thing.end + 1)
    if not ends_before(spoken, thing.end + 1) or follows in word_set("auxiliaries") or follows in ("a", "an"):
        return None
    return told(index, Tail(["first"], thing.end + 1), Deed(("remove",), "remove"), thing, sure=False)


def _put(spoken: Spoken, thing: Name, index: int, tail: Tail, since: int) -> Action | None:
    """ "Tray under the hose": put it there."""
    if is_fastener(thing) or tail.particle or not tail.phrases or _marks(thing):
        return None
    beside = thing.head in word_set("stays_on") and tail.phrases[0].startswith(("on both", "on each", "underneath"))
    if spoken.text(thing.end) not in word_set("linking") and not beside:
        return None
    if tail.phrases[0].split()[0] not in word_set("linking"):
        return None  # "drift in there from behind"
    known = bool(thing.sightings) or (thing.head in spoken.nouns and thing.end - thing.start <= 3)
    if tail.phrases[0].endswith(" everything") or kept_in(thing, tail.phrases[0]) or _is_subject(spoken, tail.end):
        return None
    if spoken.text(index) in ("a", "an") and tail.phrases[0].rpartition(" the ")[2] in word_set("machine_sides"):
        return None  # "and a slot on the left" tells how it is made
    measured = any(i in spoken.value_over for i in range(tail.end, tail.end + 3))
    begins = (
        index == since
        or spoken.stops_before(index)
        or spoken.text(index - 1) in ("and", "then", "so", "now")
        or (thing.head in word_set("stays_on") and _behind_noun(spoken, index))
    )
    if not (known and begins) or measured or spoken.text(tail.end) in word_set("auxiliaries"):
        return None
    if tail.phrases[0] in word_set("on_measures"):
        tail.phrases[0] = tail.phrases[0].replace("on ", "with ", 1)
        return told(index, tail, Deed(("measure",), "measure"), thing, sure=False)
    if measures(thing) and not set(tail.phrases[0].split()) & word_set("rests"):
        return None
    return told(index, past_commas(spoken, tail), Deed(("put",), "fit"), thing, sure=False)


def _is_subject(spoken: Spoken, index: int) -> bool:
    """Whether a verb follows of which the thing before it is the subject: "the meter on the wall reads the gas"."""
    text = spoken.text(index)
    base = "" if spoken.stops_before(index) or spoken.sighting_over.get(index) else kinds(text).verb
    return bool(base) and form_of(text, base) == "s" and spoken.text(index + 1) in word_set("determiners")


def _marks(thing: Name) -> bool:
    """Whether a bare word is rather the verb of marking: "and scribe round the ears"."""
    what = deed(kinds(thing.head).verb or "")
    return thing.end - thing.start == 1 and what is not None and what.action == "mark"


def _behind_noun(spoken: Spoken, index: int) -> bool:
    """Whether the word before can only be a thing that has ended: "and towels chocks behind the wheels"."""
    before = spoken.text(index - 1)
    return kinds(before).noun and is_plural(before) and spoken.text(index - 2) not in word_set("subjects")


def _had_done(spoken: Spoken, thing: Name, index: int, since: int) -> Action | None:
    """ "Reservoir topped up with fresh fluid": the participle alone."""
    text = spoken.text(thing.end)
    base = kinds(text).verb
    if (
        not base
        or form_of(text, base) != "past"
        or text == base
        or (kinds(text).noun and not text.endswith("ed"))
        or not begins_clause(spoken, index, since)
        or not thing.sightings
        or base in phrase_table("verbs", "light")
    ):
        return None
    tail = read_tail(spoken, thing.end + 1)
    what = deed(base, tail.particle)
    return Action(index, tail.end, what, thing, tail, False, "thing", sure=False) if what else None


def pulled_out(tail: Tail) -> bool:
    """Whether a place is told that the thing comes out of."""
    found = bool(tail.phrases) and tail.phrases[0].startswith(("out of a ", "out of an "))  # "the wire out of a bra"
    return not tail.particle and not found and bool(tail.phrases) and tail.phrases[0].startswith("out of ")


def is_fastener(thing: Name) -> bool:
    """Whether a thing is known to be a fastener."""
    return bool(thing.sightings) and thing.sightings[-1].kind == "fastener"


def ends_before(spoken: Spoken, index: int) -> bool:
    """Whether a clause can end before a token: a stop, a word that opens the next one, a verb with its thing."""
    text, follows = spoken.text(index), spoken.text(index + 1)
    return (
        spoken.stops_before(index)
        or text in PUNCTUATION
        or text in word_set("conjunctions")
        or text in word_set("adverbs")
        or text in word_set("subjects")
        or text in word_set("determiners")
        or text in word_set("clause_stops")
        or text in word_set("numbers")
        or spoken.value_over.get(index) is not None
        or (
            bool(kinds(text).verb)
            and (
                follows in word_set("determiners")
                or follows in word_set("pronouns") - word_set("numbers")
                or follows in word_set("particles")
            )
        )
        or spoken.sighting_over.get(index) is not None
        or clause_ahead(spoken, index)
        or text == follows
        or bool(sets_down(spoken, index))
        or (follows in word_set("particles") and kinds(text).noun and (text, follows) not in deeds())
    )


def deed_of(spoken: Spoken, thing: Name, particle: str) -> Deed | None:
    """What to do so that the thing is off, on, in, out: a tap is turned off, gloves are put on, a cover is removed."""
    said = set(spoken.texts[thing.start : thing.end])
    text = " ".join(spoken.texts[thing.start : thing.end])
    for group in ("switched", "worn", "set", "poured", "plugged", "flipped"):
        table = phrase_table("verbs", group)
        if particle in table and (
            thing.head in table["things"]
            or text in table["things"]
            or (said & set(table["things"]) and group == "switched" and len(said) <= 2)
        ):
            words, action = table[particle]
            return Deed(tuple(words.split()), action)
        if group == "worn" and particle in ("out", "down", "over") and thing.head in table["things"]:
            return None  # "gloves out": nothing of the machine
    if particle in ("up", "back up", "back", "back on", "back in") and "new" in said:
        particle = "on"
    found = phrase_table("verbs", "goes").get(particle)
    return Deed(tuple(found[0].split()), found[1]) if found else None
