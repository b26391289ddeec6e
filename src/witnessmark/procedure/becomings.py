"""Actions told of the thing:
"the wheel comes off", "drawer out", "chocks go both sides of the front tires", "the anode gets replaced".
"""

from dataclasses import replace

from witnessmark.procedure.bare import (
    before_count,
    deed_of,
    ends_before,
    is_fastener,
    pulled_out,
    put_or,
    read_bare,
    sets_down,
    told,
)
from witnessmark.procedure.beginnings import is_purpose, may_begin
from witnessmark.procedure.clauses import begins_clause
from witnessmark.procedure.commas import past_commas
from witnessmark.procedure.deed import Action
from witnessmark.procedure.giving import read_given
from witnessmark.procedure.inverted import jacked, only_follows, outcome, read_inverted
from witnessmark.procedure.itself import read_of_itself
from witnessmark.procedure.joined_names import both_told
from witnessmark.procedure.lexicon import Deed, deed, deeds, form_of, kinds, phrase_table, word_set
from witnessmark.procedure.moods import _words as frame_words
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.new_ones import new_one
from witnessmark.procedure.numbered import read_numbered
from witnessmark.procedure.placements import held_there, in_use, past_origin, read_placed
from witnessmark.procedure.sequences import read_sequence
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.substances import read_substance
from witnessmark.procedure.tails import Tail, read_tail
from witnessmark.procedure.topics import is_topic, past_pronoun


def read_becoming(spoken: Spoken, index: int, since: int) -> Action | None:
    """The action told of the thing named at a token."""
    turned = read_inverted(spoken, index) or _set_down(spoken, index, since)
    if turned is not None:
        return turned
    start = may_begin(spoken, index, since)
    if not start or is_purpose(spoken, index) or only_follows(spoken, index) or spoken.text(index) == "thing":
        return None  # "last thing paste wax on the iron"
    row = read_sequence(spoken, index, since) or read_numbered(spoken, index, since)
    if row is not None:
        return row
    fresh = (_new(spoken, index) if start == 2 else None) or new_one(spoken, index)
    if fresh is not None:
        return fresh
    if _acts_with_particle(spoken, index):
        return None
    thing = read_name(spoken, index)
    thing = both_told(spoken, thing) if thing is not None else None
    if thing is None or not _may_become(spoken, thing, index == since) or _no_thing(spoken, thing):
        return None
    relative = thing.vague and spoken.text(index) == "that" and spoken.sighting_over.get(index - 1) is not None
    topic = past_pronoun(spoken, thing)
    if topic.end > thing.end:
        told_of = _becomes(spoken, topic, index, since, *_become(spoken, past_origin(spoken, topic)))
        return is_topic(spoken, told_of or read_of_itself(spoken, topic, index))
    if spoken.stops_before(thing.end) or (relative and not spoken.stops_before(index)):
        return None
    at, become = _become(spoken, past_origin(spoken, thing))
    if become:
        return _becomes(spoken, thing, index, since, at, become)
    if start < 2 and not thing.sightings and not _pulled(spoken, thing.end):
        return None
    if _is_object(spoken, index):
        return None
    return read_bare(spoken, thing, index, since) or read_of_itself(spoken, thing, index)


def _may_become(spoken: Spoken, thing: Name, first: bool) -> bool:
    """Whether a thing is one that work is done to. first: it begins what is said."""
    if thing.head in word_set("living"):
        return False
    if thing.head in word_set("body") and not _part_and_not_worn(spoken, thing):
        return False
    spread = thing.head in word_set("spread_stuff") and thing.end - thing.start > 1
    named = bool(thing.sightings) or thing.vague or thing.head in word_set("dabs") or spread
    return named or _plain_noun(spoken, thing, first)


def _part_and_not_worn(spoken: Spoken, thing: Name) -> bool:
    """Whether a word for what people wear is a part here: "boots back on"; "sleeves up" is said of a shirt."""
    rolled = thing.head == "sleeves" and spoken.text(thing.end) == "up"
    return bool(thing.sightings) and thing.head in word_set("part_too") and not rolled


def _no_thing(spoken: Spoken, thing: Name) -> bool:
    """Whether what was read as a name is a unit, what is being done or a relative clause: "there 's holding", "a key that falls out"."""
    if thing.vague or thing.sightings:
        return False
    text, before = spoken.texts[thing.end - 1], kinds(spoken.text(thing.start - 1))
    alone = thing.end - thing.start == 1
    doing = alone and bool(kinds(text).verb) and form_of(text, kinds(text).verb) == "ing"
    who = spoken.text(thing.start) == "that" and thing.end - thing.start == 2 and not spoken.stops_before(thing.start)
    relative = who and before.noun and form_of(text, kinds(text).verb) == "s"
    return (
        doing
        or relative
        or (spoken.text(thing.start) == "that" and text in word_set("stays"))
        or text in word_set("units")
    )


def _becomes(spoken: Spoken, thing: Name, index: int, since: int, at: int, become: str) -> Action | None:
    """What is told of a thing by "comes", "goes", "gets" or the like, which ends before a token; None where none is said."""
    if not become:
        return None
    return (
        read_given(spoken, thing, index, at, become)
        or (read_substance(spoken, thing, index, since) if become in ("go", "goes") else None)
        or _undergone(spoken, thing, index, at)
        or _disposed(spoken, thing, index, at, become)
        or _moved(spoken, thing, index, at, become)
    )


def _new(spoken: Spoken, index: int) -> Action | None:
    """ "New washer, new nut": what is new is fitted."""
    at = index + 1 if spoken.text(index) in ("a", "the", "two", "both") else index
    if spoken.text(at) != "new" or spoken.text(index - 1) in word_set("acquiring"):
        return None
    thing = read_name(spoken, index)
    if thing is None or not (thing.sightings or thing.end - at <= 3):
        return None
    i = thing.end
    if thing.vague and not (thing.which == "new" and (spoken.text(i) in ("on", "in", ",") or spoken.stops_before(i))):
        return None
    if spoken.text(i) in word_set("tells_of_new") and not spoken.stops_before(i):
        return None
    base = kinds(spoken.text(i)).verb
    if thing.plural and base == spoken.text(i) and not spoken.stops_before(i) and base in word_set("does_itself"):
        return None  # "new elements smoke a bit"
    if spoken.text(i) in word_set("goes_on"):
        i += 1
    tail = past_commas(spoken, read_tail(spoken, i))
    tail.particle = ""
    kept = any(phrase.startswith("every ") for phrase in tail.phrases)
    if kept:
        thing = replace(thing, text=thing.text.replace("new ", "", 1))
    what = Deed(("replace" if kept else "fit",), "fit")
    return Action(index, max(tail.end, thing.end), what, thing, tail, False, "new", sure=True)


def _set_down(spoken: Spoken, index: int, since: int) -> Action | None:
    """ "Down on the ground", "down on its wheels": the machine is lowered."""
    sat = spoken.text(index - 1) == "right" and not spoken.stops_before(index)  # "i sat right down on the floor"
    told_so = spoken.text(index - 1) in ("'s", "is") and spoken.text(index - 2) in word_set("machines") | {"she", "it"}
    to_and_fro = spoken.texts[max(0, index - 2) : index] == ("up", "and")
    begins = (begins_clause(spoken, index, since) and not sat and not to_and_fro) or told_so
    lifted = not word_set("holds_up").isdisjoint(spoken.texts[:index])  # else it is the speaker who gets down
    size = sets_down(spoken, index) if begins and lifted else 0
    if not size or set(spoken.texts[max(0, index - 3) : index]) & word_set("sits"):
        return None
    tail = Tail(["to the ground"], index + size)
    return Action(index, tail.end, Deed(("lower",), "lower"), None, tail, False, "thing", sure=True)


def _is_object(spoken: Spoken, index: int) -> bool:
    """Whether the verb before takes a thing: "it drinks water", "i took the belt off", "do n't mix your bottles up"."""
    last, word = spoken.text(index - 1), spoken.text(index - 2)
    if spoken.stops_before(index) or not kinds(last).verb or last in word_set("wanting"):
        return False
    if last in word_set("auxiliaries") and last not in word_set("moving_auxiliaries"):
        return False
    subjects = word_set("subjects") - {"that", "these", "those", "there", "which", "what"}
    return word in subjects or word in ("n't", "not", "to", "could", "can", "would", "will", "'ll", "'ve", "had")


def _acts_with_particle(spoken: Spoken, index: int) -> bool:
    """Whether a word and its particle are an action by themselves ("mop up")."""
    text, follows = spoken.text(index), spoken.text(index + 1)
    if _pulled(spoken, index + 1) or text in phrase_table("verbs", "switched")["things"]:
        return False
    return (
        kinds(text).verb == text
        and (text, follows) in deeds()
        and text not in spoken.nouns
        and spoken.sighting_over.get(index) is None
    )


def _pulled(spoken: Spoken, index: int) -> bool:
    """Whether it is told what a thing comes out of: "plug out of the wall"."""
    if spoken.text(index + 2) in word_set("determiners"):
        return spoken.texts[index : index + 2] == ("out", "of")
    place = read_name(spoken, index + 1) if spoken.text(index + 1) in word_set("determiners") else None
    return spoken.text(index) == "off" and place is not None and bool(place.sightings)


def _plain_noun(spoken: Spoken, thing: Name, goes_on: bool) -> bool:
    """A short name that no vocabulary knows: good enough with an article, or alone at the start of a clause.

    goes_on: whether an action ended right before it.
    """
    words = thing.end - thing.start
    if _pulled(spoken, thing.end):
        return True
    if thing.head in word_set("rather_verbs") or (kinds(thing.head).adjective and words == 1):
        return False
    if any(thing.head in phrase_table("verbs", group)["things"] for group in ("switched", "worn", "set")):
        return True
    if words <= 2 and spoken.text(thing.start - 1) in word_set("bare_starters"):
        return True
    return words <= 3 and (
        spoken.text(thing.start) in word_set("determiners")
        or (words <= 2 and (goes_on or spoken.stops_before(thing.start)))
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
    secured = base in word_set("secured")
    state = (
        what is not None
        and (what.action in ("disconnect", "connect", "remove", "drain", "stop", "mark", "close") or secured)
        and (bool(thing.sightings) or secured)
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
    if secured and state and thing.vague:
        if thing.plural or spoken.machine in " ".join(tail.phrases).split():
            return None
        thing = replace(thing, text=f"the {spoken.machine}")
    return Action(index, tail.end, deed(base, tail.particle) or what, thing, tail, False, "thing", sure=True)


def _disposed(spoken: Spoken, thing: Name, index: int, at: int, become: str) -> Action | None:
    """ "The old stuff goes back to the depot": what is old is taken where it is dealt with."""
    if (
        "old" not in spoken.texts[index : thing.end]
        or thing.which
        or not any(word in become for word in ("go", "went"))
    ):
        return None
    near = next((i for i in range(at, min(at + 9, len(spoken.texts))) if spoken.texts[i] in word_set("depots")), None)
    if near is None or any(spoken.stops_before(i) for i in range(at + 1, near)):
        return None
    tail = read_tail(spoken, at)
    tail.particle = ""
    told_of = replace(thing, text="the old fluid") if thing.vague else thing
    verb = "take" if any("to " in f"{phrase} "[:9] for phrase in tail.phrases) else "put"
    return told(index, tail, Deed((verb,), "dispose"), told_of) if tail.phrases else None


def _moved(spoken: Spoken, thing: Name, index: int, at: int, become: str) -> Action | None:
    """ "The wheel comes off", "the hose goes on the spigot", "the valve is off"."""
    still = become in ("is", "are", "'s", "'re", "ends up")
    going = any(word in become for word in ("come", "go", "went", "came")) or become in ("gets", "get")
    if not (still or going) or (thing.vague and still) or thing.head in word_set("no_things"):
        return None
    if still and thing.head in word_set("machines"):
        return None
    if become in ("come", "go", "both come") and not thing.plural and not thing.vague:
        return None
    while spoken.text(at) in word_set("exactly"):
        at += 1
    if become.startswith(("goes", "go", "comes", "come")):
        at = _skip_to_place(spoken, thing, at)
    placed = read_placed(spoken, thing, index, at, become)
    if placed is not None:
        return placed
    tail = _in_first(spoken, at) or before_count(spoken, at) or _tail_with_measure(spoken, at)
    if _of_itself(spoken, thing, tail, become):
        return None
    if pulled_out(tail) and not still and not thing.vague:
        return told(index, tail, Deed(("pull",), "remove"), thing)
    if tail.particle:
        return _by_particle(spoken, thing, index, tail, become, still)
    if still and tail.phrases and _set_under(thing, tail):
        return told(index, tail, Deed(("put",), "fit"), thing)
    if become.endswith(("goes", "go")) and tail.phrases and not thing.vague and not in_use(spoken, tail.end):
        away = tail.phrases[0].startswith(("to ", "down to "))
        held_there(spoken, tail)
        return told(index, tail, Deed(("take",), "dispose") if away else Deed(("put",), "fit"), thing)
    return None


def _of_itself(spoken: Spoken, thing: Name, tail: Tail, become: str) -> bool:
    """Whether nobody does it: "the oil comes out of the breather", "the belt came off twice last winter"."""
    if tail.phrases and thing.head in phrase_table("verbs", "poured")["things"] and pulled_out(tail):
        return True
    once = tail.phrases[:1] == ["twice"] or spoken.text(tail.end) in word_set("once_done")
    return become in ("came", "went") and once


def _in_first(spoken: Spoken, at: int) -> Tail | None:
    """ "The small one goes in first" is no gear."""
    particle = spoken.text(at)
    goes = particle in ("in", "on") and spoken.text(at + 1) == "first" and spoken.text(at + 2) != "gear"
    return Tail(["first"], at + 2, particle) if goes else None


def _tail_with_measure(spoken: Spoken, at: int) -> Tail:
    """What follows, with the measure that may stand before the place: "ten centimeters down the pipe"."""
    value = spoken.value_over.get(at)
    if value is None or value.start_token != at or value.quoted or value.kind in ("torque", "tool_size"):
        return read_tail(spoken, at)
    tail = read_tail(spoken, value.end_token)
    if tail.phrases:
        tail.phrases.insert(0, value.shown)
        tail.values += (value,)
    return tail


def _by_particle(spoken: Spoken, thing: Name, index: int, tail: Tail, become: str, still: bool) -> Action | None:
    """The thing comes off, goes on, is out."""
    comes = "come" in become or "came" in become
    if thing.vague and tail.particle not in (("off", "out", "apart") if comes else word_set("putting")):
        return None
    if tail.particle in ("in", "on") and not tail.phrases and not ends_before(spoken, tail.end):
        return None
    if spoken.texts[tail.end : tail.end + 2] in (("one", "way"), ("either", "way"), ("only", "one")):
        return None  # "it goes in one way"
    if comes and tail.particle == "out" and thing.head in phrase_table("verbs", "poured")["things"]:
        return None  # "the water comes out at ninety degrees": it does so by itself
    if thing.head in phrase_table("verbs", "poured")["things"] and in_use(spoken, tail.end):
        return None
    if tail.particle in ("up", "down") and (
        is_fastener(thing)
        or outcome(spoken, index)
        or (thing.vague and thing.which != "new" and not jacked(spoken, index))
    ):
        return None
    by_itself = comes or any(phrase.startswith("at ") for phrase in tail.phrases)
    if tail.particle == "on" and by_itself and thing.head in word_set("comes_on"):
        return None
    gone = tail.particle in ("off", "out") or (tail.particle == "on" and _stays_on(thing))
    if still and (tail.phrases or not gone or not ends_before(spoken, tail.end)):
        return None
    what = deed_of(spoken, thing, tail.particle)
    if what is None:
        return None
    return put_or(what, index, tail, thing, sure=not thing.vague)


def _stays_on(thing: Name) -> bool:
    """Whether a thing that "is on" was put on by the speaker: a brake, gloves, a clamp."""
    groups = (phrase_table("verbs", group)["things"] for group in ("worn", "set"))
    return thing.head in word_set("stays_on") or any(thing.head in things for things in groups)


def _set_under(thing: Name, tail: Tail) -> bool:
    """ "The jack's under the sump": what carries, holds or catches is put there."""
    carries = thing.head in word_set("stays_on") or thing.head in word_set("catchers")
    return carries and tail.phrases[0].split()[0] in ("under", "underneath", "beneath", "behind", "between")


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
