"""Actions told of the thing: "the wheel comes off", "drawer out", "chocks go both sides of the front tires", "the anode gets replaced"."""

from dataclasses import replace

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, deed, deeds, form_of, kinds, phrase_table, word_set
from witnessmark.procedure.moods import _words as frame_words
from witnessmark.procedure.moods import words_before
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail, read_tail


def read_becoming(spoken: Spoken, index: int, since: int) -> Action | None:
    """The action told of the thing named at a token."""
    turned = _turned_round(spoken, index)
    if turned is not None:
        return turned
    start = _may_begin(spoken, index, since)
    if not start:
        return None
    fresh = _new(spoken, index) if start == 2 else None
    if fresh is not None:
        return fresh
    if _acts_with_particle(spoken, index):
        return None
    thing = read_name(spoken, index)
    if (
        thing is None
        or thing.head in word_set("body")
        or not (thing.sightings or thing.vague or _plain_noun(spoken, thing))
    ):
        return None
    if spoken.stops_before(thing.end):
        return None
    at, become = _become(spoken, thing.end)
    if become:
        return _undergone(spoken, thing, index, at) or _moved(spoken, thing, index, at, become)
    if start < 2 and not thing.sightings:
        return None
    return _bare(spoken, thing, index, since) or _of_itself(spoken, thing, index)


def _new(spoken: Spoken, index: int) -> Action | None:
    """ "New washer, new nut": what is new is fitted."""
    at = index + 1 if spoken.text(index) in ("a", "the", "two", "both") else index
    if spoken.text(at) != "new":
        return None
    thing = read_name(spoken, index)
    if thing is None or thing.vague or not (thing.sightings or thing.end - at <= 3):
        return None
    i = thing.end
    if spoken.text(i) in word_set("tells_of_new") and not spoken.stops_before(i):
        return None
    if spoken.text(i) in word_set("goes_on"):
        i += 1
    tail = read_tail(spoken, i)
    tail.particle = ""
    return Action(index, max(tail.end, thing.end), Deed(("fit",), "fit"), thing, tail, False, "new", sure=True)


def _turned_round(spoken: Spoken, index: int) -> Action | None:
    """ "Up she goes", "off it comes": the particle first."""
    particle, subject, verb = (spoken.text(index + n) for n in range(3))
    if (
        subject not in ("she", "he", "it", "they")
        or verb not in ("goes", "comes", "go", "come")
        or particle not in phrase_table("verbs", "goes")
    ):
        return None
    if spoken.text(index - 1) in ("and", "here", "there") and particle in ("out", "here"):
        return None
    thing = Name(index + 1, index + 2, "", plural=subject == "they")
    what = _deed_of(spoken, thing, particle)
    tail = read_tail(spoken, index + 3)
    return Action(index, tail.end, what, thing, tail, False, "thing", sure=False) if what else None


def _may_begin(spoken: Spoken, index: int, since: int) -> int:
    """Whether a clause can begin at a token: 0 no, 1 if what follows says so plainly, 2 yes."""
    if spoken.stops_before(index) or (index == since and spoken.text(index - 1) not in word_set("conditions")):
        return 2
    before = words_before(spoken, index, since)
    if before and (
        before[-1] in word_set("conditions")
        or before[-1] in ("not", "n't")
        or (before[-1] in word_set("subjects") and before[-2:-1] and before[-2] in word_set("conditions"))
    ):
        return 0
    last = spoken.text(index - 1)
    if last in word_set("prepositions") and last not in word_set("particles_before"):
        return 0
    if last in word_set("determiners") or last in word_set("numbers") or spoken.value_over.get(index - 1) is not None:
        return 0
    if last.endswith("ing") and kinds(last).verb and spoken.sighting_over.get(index - 1) is None:
        return 0
    plain = not before or last in word_set("fillers") or before[-1] in word_set("clause_ends") or kinds(last).noun
    return 2 if plain else 1


def _acts_with_particle(spoken: Spoken, index: int) -> bool:
    """Whether a word and its particle are an action by themselves ("mop up")."""
    text, follows = spoken.text(index), spoken.text(index + 1)
    return (
        kinds(text).verb == text
        and (text, follows) in deeds()
        and text not in spoken.nouns
        and spoken.sighting_over.get(index) is None
    )


def _plain_noun(spoken: Spoken, thing: Name) -> bool:
    """A short name that no vocabulary knows: good enough with an article, or alone at the start of a clause."""
    words = thing.end - thing.start
    if any(thing.head in phrase_table("verbs", group)["things"] for group in ("switched", "worn", "set")):
        return True
    if words <= 2 and spoken.text(thing.start - 1) in word_set("bare_starters"):
        return True
    return words <= 3 and (
        spoken.text(thing.start) in word_set("determiners") or (words <= 2 and spoken.stops_before(thing.start))
    )


def _become(spoken: Spoken, index: int) -> tuple[int, str]:
    """What is said of the thing: (token after it, words), or (index, "")."""
    i = index
    while spoken.text(i) in word_set("before_become"):
        i += 1
    for size in (4, 3, 2, 1):
        words = " ".join(spoken.texts[i : i + size])
        if words in frame_words("become") or words in frame_words("undergoes"):
            i += size
            while spoken.text(i) in word_set("after_become"):
                i += 1
            return i, words
    return index, ""


def _undergone(spoken: Spoken, thing: Name, index: int, at: int) -> Action | None:
    """ "The anode gets replaced", "the face wants cleaning"."""
    text = spoken.text(at)
    base = kinds(text).verb
    words = " ".join(spoken.texts[max(thing.end, at - 4) : at])
    if not base or not any(words.endswith(frame) for frame in frame_words("undergoes")):
        return None
    form = form_of(text, base)
    what = deed(base)
    state = (
        what is not None
        and what.action in ("disconnect", "connect", "remove", "drain", "stop", "mark", "close")
        and bool(thing.sightings)
        and form == "past"
    )
    obliged = state or any(words.endswith(frame) for frame in frame_words("undergoes") - {"is", "are", "'s", "be"})
    if (
        what is None
        or form not in ("past", "ing")
        or text == base
        or not obliged
        or base in phrase_table("verbs", "light")
    ):
        return None
    tail = read_tail(spoken, at + 1)
    return Action(index, tail.end, deed(base, tail.particle) or what, thing, tail, False, "thing", sure=True)


def _moved(spoken: Spoken, thing: Name, index: int, at: int, become: str) -> Action | None:
    """ "The wheel comes off", "the hose goes on the spigot", "the valve is off"."""
    still = become in ("is", "are", "'s", "'re", "ends up")
    if (
        "come" not in become
        and "go" not in become
        and "went" not in become
        and "came" not in become
        and not still
        and become not in ("gets", "get", "stays")
    ):
        return None
    while spoken.text(at) in word_set("exactly"):
        at += 1
    if become.startswith(("goes", "go", "comes", "come")):
        at = _skip_to_place(spoken, thing, at)
    value = spoken.value_over.get(at)
    measured = (
        value
        if value is not None
        and value.start_token == at
        and not value.quoted
        and value.kind not in ("torque", "tool_size")
        else None
    )
    tail = read_tail(spoken, measured.end_token if measured else at)
    if measured and tail.phrases:
        tail.phrases.insert(0, measured.shown)
        tail.values += (measured,)
    if (thing.vague and still) or (become in ("come", "go", "both come") and not thing.plural and not thing.vague):
        return None
    if tail.phrases and not tail.particle and tail.phrases[0].startswith("out of ") and not still and not thing.vague:
        return Action(index, tail.end, Deed(("pull",), "remove"), thing, tail, False, "thing", sure=True)
    allowed = ("off", "out", "apart") if "come" in become or "came" in become else word_set("putting")
    if thing.vague and tail.particle not in allowed:
        return None
    if become == "stays":
        return None
    if tail.particle in ("in", "on") and not tail.phrases and not _ends(spoken, tail.end):
        return None
    if tail.particle in ("up", "down") and thing.sightings and thing.sightings[-1].kind == "fastener":
        return None
    if tail.particle and not (
        still and (tail.phrases or tail.particle not in ("off", "out") or not _ends(spoken, tail.end))
    ):
        what = _deed_of(spoken, thing, tail.particle)
        if what is None:
            return None
        tail.particle = ""
        return Action(index, tail.end, what, thing, tail, False, "thing", sure=not thing.vague)
    goes = become.endswith(("goes", "go"))
    if goes and tail.phrases and not thing.vague:
        away = tail.phrases[0].startswith(("to ", "down to "))
        return Action(
            index,
            tail.end,
            Deed(("take",), "dispose") if away else Deed(("put",), "fit"),
            thing,
            tail,
            False,
            "thing",
            sure=True,
        )
    return None


def _skip_to_place(spoken: Spoken, thing: Name, at: int) -> int:
    """A jack that "comes back out under the arm" is not taken away but put there."""
    tool = (thing.sightings and thing.sightings[-1].kind == "tool") or thing.head in (
        "jack",
        "stand",
        "stands",
        "pan",
        "tray",
    )
    for i in range(at, at + 3):
        if tool and spoken.text(i) in ("under", "underneath", "beneath") and i > at and not spoken.stops_before(i):
            return i
    return at


def _bare(spoken: Spoken, thing: Name, index: int, since: int) -> Action | None:
    """ "Drawer out", "wheels on", "tray under the hose"."""
    if thing.vague:
        return None
    switched = phrase_table("verbs", "switched")
    follows = spoken.text(thing.end)
    if thing.head in switched["things"] and follows in ("on", "off"):
        if not thing.text.startswith(("the ", "both ", "all ")):
            thing = replace(thing, text=f"the {thing.text}")
        return Action(
            index,
            thing.end + 1,
            Deed(tuple(switched[follows][0].split()), switched[follows][1]),
            thing,
            Tail([], thing.end + 1),
            False,
            "thing",
            sure=True,
        )
    tail = read_tail(spoken, thing.end)
    if tail.phrases and not tail.particle and tail.phrases[0].startswith("out of "):
        return Action(index, tail.end, Deed(("pull",), "remove"), thing, tail, False, "thing", sure=True)
    if spoken.text(thing.start) in ("a", "an") and tail.particle in ("up", "down", "on", "in", "over"):
        return None
    caught = (thing.sightings and thing.sightings[-1].kind in ("tool", "supply")) or thing.head in word_set("catchers")
    if follows in ("under", "underneath") and tail.end == thing.end and caught and _ends(spoken, thing.end + 1):
        return Action(
            index,
            thing.end + 1,
            Deed(("put",), "fit"),
            thing,
            Tail(["underneath"], thing.end + 1),
            False,
            "thing",
            sure=True,
        )
    if tail.particle and spoken.text(tail.end) in ("it", "them", "that"):
        return None
    if tail.particle in ("up", "down") and thing.sightings and thing.sightings[-1].kind == "fastener":
        return None
    first = (
        spoken.text(thing.end)
        if spoken.text(thing.end) not in ("just", "all", "both", "then")
        else spoken.text(thing.end + 1)
    )
    if (
        tail.particle in phrase_table("verbs", "goes")
        and first in word_set("particles")
        and (tail.phrases or _ends(spoken, tail.end))
        and not (tail.particle in word_set("known_only") and not thing.sightings)
    ):
        what = _deed_of(spoken, thing, tail.particle)
        if what is not None:
            tail.particle = ""
            return Action(index, tail.end, what, thing, tail, False, "thing", sure=bool(thing.sightings))
    if tail.phrases and not tail.particle and tail.phrases[0] in ("by hand", "hand tight", "finger tight", "snug"):
        verb = ("start",) if tail.phrases[0] == "by hand" else ("tighten",)
        return (
            Action(
                index,
                tail.end,
                Deed(verb, "fit" if verb == ("start",) else "tighten"),
                thing,
                tail,
                False,
                "thing",
                sure=False,
            )
            if thing.sightings
            else None
        )
    if thing.sightings and thing.sightings[-1].kind == "fastener":
        return None
    known = (thing.sightings and thing.sightings[-1].kind in ("tool", "supply", "part")) or (
        thing.head in spoken.nouns and thing.end - thing.start <= 3
    )
    measured = any(tail.end <= i < tail.end + 3 for i in range(tail.end, tail.end + 3) if i in spoken.value_over)
    place = spoken.text(thing.end) in word_set("linking") and tail.phrases and not tail.particle and not measured
    topped = _had_done(spoken, thing, index)
    if topped is not None:
        return topped
    tool = _with_tool(spoken, thing, index)
    if tool is not None:
        return tool
    if (
        known
        and place
        and (index == since or spoken.stops_before(index) or spoken.text(index - 1) in ("and", "then", "so", "now"))
    ):
        return Action(index, tail.end, Deed(("put",), "fit"), thing, tail, False, "thing", sure=False)
    return None


def _had_done(spoken: Spoken, thing: Name, index: int) -> Action | None:
    """ "Reservoir topped up with fresh fluid": the participle alone."""
    text = spoken.text(thing.end)
    base = kinds(text).verb
    if (
        not base
        or not text.endswith("ed")
        or not spoken.stops_before(index)
        or not thing.sightings
        or base in phrase_table("verbs", "light")
    ):
        return None
    tail = read_tail(spoken, thing.end + 1)
    what = deed(base, tail.particle)
    return Action(index, tail.end, what, thing, tail, False, "thing", sure=False) if what else None


def _with_tool(spoken: Spoken, thing: Name, index: int) -> Action | None:
    """ "Wire brush on the hub face": the thing is brushed with the wire brush."""
    if (
        not thing.sightings
        or thing.sightings[-1].kind not in ("tool", "supply")
        or spoken.text(thing.end) not in word_set("tool_places")
    ):
        return None
    table = phrase_table("tools", "does")
    found = next((table[key] for key in (thing.sightings[-1].name, thing.head) if key in table), None)
    driver = thing.sizes and thing.head in word_set("drivers") and spoken.text(thing.end) == "on"
    found = found or (["undo", "loosen"] if driver else None)
    target = read_name(spoken, thing.end + 1)
    if found is None or target is None or target.vague or target.head in word_set("rests"):
        return None
    negative = spoken.text(index - 1) == "no"
    tail = read_tail(spoken, target.end)
    if found[0] not in thing.text and not thing.sizes:
        tail.phrases.insert(0, f"with {thing.text}")
    tail.sizes += thing.sizes
    return Action(index, tail.end, Deed((found[0],), found[1]), target, tail, negative, "thing", sure=True)


def _ends(spoken: Spoken, index: int) -> bool:
    """Whether a clause can end before a token: a stop, a word that opens the next one, a verb with its thing."""
    text, follows = spoken.text(index), spoken.text(index + 1)
    return (
        spoken.stops_before(index)
        or text in PUNCTUATION
        or text in word_set("conjunctions")
        or text in word_set("adverbs")
        or text in word_set("subjects")
        or text in word_set("determiners")
        or (
            bool(kinds(text).verb)
            and (
                follows in word_set("determiners")
                or follows in word_set("pronouns")
                or follows in word_set("particles")
            )
        )
        or spoken.sighting_over.get(index) is not None
    )


def _of_itself(spoken: Spoken, thing: Name, index: int) -> Action | None:
    """ "The panel unclips", "the arm lifts off": the verb in the third person, or the plain form after a plural."""
    if thing.vague and not (
        spoken.text(index) == "it"
        and (spoken.stops_before(index) or spoken.text(index - 1) in ("and", "then", "so", ","))
    ):
        return None
    i = thing.end
    while spoken.text(i) in word_set("before_itself"):
        i += 1
    text = spoken.text(i)
    base = kinds(text).verb
    if not base or base not in phrase_table("verbs", "of_things") or spoken.value_over.get(i) is not None:
        return None
    form = form_of(text, base)
    if thing.vague and base not in word_set("turned") and (form != "s" or base in word_set("own_motion")):
        return None
    if form not in ("s", "base") or (
        form == "base" and not (thing.plural or spoken.text(i - 1) in ("should", "will", "'ll", "can"))
    ):
        return None
    tail = read_tail(spoken, i + 1)
    what = deed(base, tail.particle)
    if what is not None and tail.particle in ("off", "out") and base in ("drop", "pop", "come", "fall"):
        what = Deed(("remove",), "remove")
    turned = bool(set(tail.phrases) & {"clockwise", "anticlockwise", "counterclockwise"})
    if base in word_set("turned") and not turned:
        return None
    if what is None or not (tail.particle or tail.phrases or base.startswith("un")):
        return None
    if tail.particle and what.words[-1] != tail.particle:
        tail.particle = ""
    return Action(index, tail.end, what, thing, tail, False, "thing", sure=False)


def _deed_of(spoken: Spoken, thing: Name, particle: str) -> Deed | None:
    """What to do so that the thing is off, on, in, out: a tap is turned off, gloves are put on, a cover is removed."""
    said = set(spoken.texts[thing.start : thing.end])
    text = " ".join(spoken.texts[thing.start : thing.end])
    for group in ("switched", "worn", "set"):
        table = phrase_table("verbs", group)
        if particle in table and (
            thing.head in table["things"]
            or text in table["things"]
            or (said & set(table["things"]) and group == "switched" and len(said) <= 2)
        ):
            words, action = table[particle]
            return Deed(tuple(words.split()), action)
    found = phrase_table("verbs", "goes").get(particle)
    return Deed(tuple(found[0].split()), found[1]) if found else None
