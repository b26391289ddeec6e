"""The actions that are said: verbs with what they act on, and where each is to be done."""

from collections.abc import Iterator
from dataclasses import replace

from witnessmark.procedure.assured import read_assured
from witnessmark.procedure.becomings import read_becoming
from witnessmark.procedure.clauses import describes, is_noun_here
from witnessmark.procedure.deed import Action
from witnessmark.procedure.expected import read_expected
from witnessmark.procedure.fronted import fronted
from witnessmark.procedure.harm import hurts
from witnessmark.procedure.joined_names import with_second
from witnessmark.procedure.lexicon import (
    Deed,
    acting_verbs,
    deed,
    deed_phrases,
    deeds,
    form_said,
    forms_among,
    kinds,
    phrase_table,
    word_set,
)
from witnessmark.procedure.moods import mood_of
from witnessmark.procedure.name_verbs import is_of_a_name
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.no_work import is_held_on, is_laid_away, is_no_work, is_tool_alone, owned_up, pointed_at
from witnessmark.procedure.put_off import put_off
from witnessmark.procedure.sayings import read_saying
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail, read_tail
from witnessmark.procedure.tooling import done_about, used_on
from witnessmark.procedure.waits import read_wait, time_told

LONG_BACK = 10  # tokens back within which "yesterday" is told of a deed


def find_actions(spoken: Spoken) -> tuple[Action, ...]:
    """All actions in the order said."""
    return tuple(_scan(spoken))


def _scan(spoken: Spoken) -> Iterator[Action]:
    i = since = 0
    while i < len(spoken.texts):
        action = (
            read_saying(spoken, i, since)
            or read_assured(spoken, i, since)
            or _repeated_at(spoken, i)
            or _phrase_at(spoken, i, since)
            or _verb_at(spoken, i, since)
            or read_wait(spoken, i, since)
            or read_becoming(spoken, i, since)
            or read_expected(spoken, i, since)
        )
        if action is None or (not action.negative and _not_to_do(spoken, action)):
            i += 1
            continue
        yield action
        since = i = max(action.end, i + 1)


def _not_to_do(spoken: Spoken, action: Action) -> bool:
    """Whether a deed is only supposed, long done, put off, owned up to as a mistake or what would hurt somebody."""
    told = _supposed(spoken, action) or _long_done(spoken, action) or put_off(spoken, action)
    return told or owned_up(spoken, action) or hurts(spoken, action)


def _supposed(spoken: Spoken, action: Action) -> bool:
    """Whether a deed is only supposed, to tell what comes of it: "turn a blade and you're turning the engine"."""
    end = action.end
    if action.source == "new":
        return False
    if spoken.text(end) == "and" and spoken.text(end + 1) in ("you", "it", "they", "she", "he"):
        told, then = spoken.text(end + 2), spoken.text(end + 3)
        return (told in ("'re", "'d", "'ve") and then != "not") or (
            told in ("'ll", "will")
            and (then not in word_set("senses_after") or (then == "be" and spoken.text(end + 4).endswith("ing")))
        )
    if spoken.texts[end : end + 4] in {("but", who, "do", "n't") for who in ("you", "we", "i")}:
        return True  # "you could pull the motor but you don't need to"
    return spoken.text(end) == "a" and spoken.text(end + 1) in ("year", "month", "week", "season")  # "twice a year"


def _long_done(spoken: Spoken, action: Action) -> bool:
    """Whether a deed was done before the filming: "i tested it yesterday", "i did it last week and i pulled it out full"."""
    if action.source != "verb" or action.sure:
        return False
    near = spoken.texts[max(0, action.start - LONG_BACK) : action.end + 2]
    return bool(forms_among(near, word_set("long_done")))


def _repeated_at(spoken: Spoken, index: int) -> Action | None:
    """ "The other side is the same"."""
    size = form_said(spoken.texts, index, "verbs", "repeated")
    if not size:
        return None
    what, end = Deed(tuple(phrase_table("verbs", "repeated")["told"].split()), "prepare"), index + size
    return Action(index, end, what, None, Tail([], end), False, "verb", sure=True)


def _phrase_at(spoken: Spoken, index: int, since: int) -> Action | None:
    """A whole phrase that the vocabulary of actions knows ("set the parking brake")."""
    if fronted(spoken, index, since) is not None:
        return None  # "the bearing i pack with grease": the thing stands before, and the phrase leaves it no place
    for said, what in deed_phrases().get(kinds(spoken.texts[index]).verb, ()):
        if spoken.texts[index + 1 : index + len(said)] == said[1:]:
            mood = mood_of(spoken, index, said[0], since)
            end = index + len(said)
            if what.action == "test" and said[-1] == "on" and read_name(spoken, end) is not None:
                return None  # "put the meter on it": told of what it is put on
            told = mood == "perhaps" and spoken.texts[index] != said[0] and what.words != said
            if mood in ("do", "dont") or told:
                name = _shown_in_photograph(spoken, end) if what.words != said else None
                if said[-1] in ("to", "of"):
                    name = read_name(spoken, end)
                    if name is None:
                        return None
                tail = read_tail(spoken, name.end if name is not None else end)
                if said[-1] == "look" and not tail.phrases:
                    return None
                return Action(index, tail.end, what, name, tail, mood == "dont", "verb", sure=mood == "do")
    return None


def _shown_in_photograph(spoken: Spoken, index: int) -> Name | None:
    """ "A photo of the wires", "a picture of where that wire runs": what is to be seen on it."""
    if spoken.text(index) != "of" or spoken.stops_before(index):
        return None
    at = index + 2 if spoken.text(index + 1) in ("where", "how", "which") else index + 1
    name = read_name(spoken, at)
    if name is None or name.vague:
        return None
    if at > index + 1 and name.head.endswith("s") and " " in name.text.removeprefix("the ") and kinds(name.head).verb:
        return replace(name, text=name.text.rsplit(" ", 1)[0])  # "of where the wire runs"
    return name


def _verb_at(spoken: Spoken, index: int, since: int) -> Action | None:
    """A verb that acts, with its particle, its thing and what follows."""
    text = spoken.texts[index]
    base = kinds(text).verb
    sighting = spoken.sighting_over.get(index)
    if not base or spoken.value_over.get(index) is not None or spoken.text(index + 1) == text:
        return None
    if sighting is not None and not (sighting.start == index and sighting.end - sighting.start == 1):
        return None
    light = base in phrase_table("verbs", "light")
    if base == "go" and set(spoken.texts[index + 1 : index + 3]) & word_set("directions"):
        return _with_thing(spoken, index, base, mood_of(spoken, index, base, since), False)
    if base == "go" and _goes_over(spoken, index):
        mood = mood_of(spoken, index, base, since)
        return None if mood == "none" else _with_thing(spoken, index, base, mood, False)
    if text == "back" and spoken.text(index + 1) in ("it", "them", "that") and spoken.text(index + 2) in ("out", "off"):
        return _with_thing(spoken, index, base, mood_of(spoken, index, base, since), False)
    if base not in acting_verbs() or (base in word_set("seldom_verbs") and not light):
        return None
    follows = spoken.text(index + 1)
    if base == "keep" and follows.endswith("ing") and kinds(follows).verb:
        return None  # "keep holding it": the holding is told
    mood = mood_of(spoken, index, base, since)
    if mood == "none" or is_noun_here(spoken, index) or describes(spoken, index) or is_of_a_name(spoken, index):
        return None
    return _with_thing(spoken, index, base, mood, light, since)


def _goes_over(spoken: Spoken, index: int) -> bool:
    """ "Go over the pinch bolts again": they are checked."""
    name = read_name(spoken, index + 2) if spoken.text(index + 1) == "over" else None
    return name is not None and not name.vague and bool(name.sightings)


def read_action(spoken: Spoken, index: int, base: str) -> Action | None:
    """The action whose verb, in whatever form, stands at a token."""
    return _with_thing(spoken, index, base, "do", base in phrase_table("verbs", "light"))


def _thing_and_tail(spoken: Spoken, index: int, base: str, since: int | None) -> tuple[Name | None, Tail]:
    """What a verb at a token acts on, named behind it or before its clause, and what follows."""
    name = fronted(spoken, index, since) if since is not None and base not in word_set("fetching") else None
    particle, at = ("", index + 1) if name is not None else _early_particle(spoken, index + 1, base)
    if name is None and not spoken.stops_before(at) and base not in phrase_table("verbs", "plain"):
        name = with_second(spoken, read_name(spoken, at), base)
    end = max(at, name.end) if name else at
    if name is not None and not particle and _switches(spoken, base, end):
        particle, end = spoken.text(end), end + 1
    tail = read_tail(spoken, end, particle)
    puts = base in phrase_table("verbs", "light") or base in phrase_table("verbs", "placed")
    if puts and name is not None and tail.end == end and _under_it(spoken, end):
        return name, Tail(["underneath"], end + 2)
    return name, tail


def _under_it(spoken: Spoken, index: int) -> bool:
    """ "A block under it"."""
    found = spoken.text(index) in ("under", "underneath") and spoken.text(index + 1) in word_set("objects")
    return found and not spoken.stops_before(index) and not spoken.stops_before(index + 1)


def _switches(spoken: Spoken, base: str, index: int) -> bool:
    """Whether a verb of stopping has its particle behind its thing: "shut her off | key in your pocket"."""
    what = deeds().get((base, "off")) if spoken.text(index) == "off" else None
    return what is not None and what.action in ("stop", "close") and not spoken.stops_before(index)


def _with_thing(
    spoken: Spoken, index: int, base: str, mood: str, light: bool, since: int | None = None
) -> Action | None:
    name, tail = _thing_and_tail(spoken, index, base, since)
    if base == "give":
        return _given(spoken, index, name, mood) if name is not None else None
    left = _left_alone(spoken, index, base, name, mood)
    if left is not None:
        return left
    if base == "go" and mood == "do" and name is None and set(tail.phrases) & word_set("directions"):
        return _turned(spoken, index, tail)
    what = deed(base, tail.particle) or _by_place(base, tail, mood, name)
    if what is None or not _complete(spoken, base, name, tail, mood, light):
        return None
    if is_no_work(spoken, index, base, name, tail) or is_laid_away(name, what):
        return None
    tail = pointed_at(spoken, base, name, tail)
    if light and not (tail.particle or tail.phrases):
        return None
    used = used_on(spoken, index, name, mood) if light else None
    if used is not None:
        return used
    if is_held_on(name, what, tail):
        return None
    rest = _without(tail, what)
    return Action(index, rest.end, what, name, rest, mood == "dont", "verb", sure=mood != "perhaps")


def _left_alone(spoken: Spoken, index: int, base: str, name: Name | None, mood: str) -> Action | None:
    """ "Leave it ten minutes", "let it sit for an hour", "let the oil drain"."""
    if base in word_set("waiting"):
        return _waited(spoken, index, base, name)
    if base != "let" or name is None:
        return None
    sits = spoken.text(name.end) in word_set("waiting")
    waited = _waited(spoken, name.end, "wait", None) if sits else None
    return waited or _let(spoken, index, name, mood)


def _turned(spoken: Spoken, index: int, tail: Tail) -> Action:
    """ "Go clockwise", "go clockwise to undo it": what is done by turning, where that is told."""
    verb = kinds(spoken.text(tail.end + 1)).verb
    found = None
    if spoken.text(tail.end) == "to" and verb in word_set("turned"):
        found = _with_thing(spoken, tail.end + 1, verb, "do", False)
    if found is None:
        return Action(index, tail.end, Deed(("turn",), "turn"), None, tail, False, "verb", sure=True)
    return replace(found, start=index, tail=replace(found.tail, phrases=[*tail.phrases, *found.tail.phrases]))


def _by_place(base: str, tail: Tail, mood: str, name: Name | None) -> Deed | None:
    """A verb that acts only with its particle, where the particle leads to a place: "slip it off the pulley";
    or with any place: "hook the spring over the peg".
    """
    pair = deeds().get((base, tail.phrases[0].split()[0])) if tail.phrases else None
    if pair:
        return Deed((base,), pair.action)
    action = phrase_table("verbs", "placed").get(base)
    if action is None or mood == "perhaps" or name is None or not (tail.particle or tail.phrases):
        return None
    return Deed((base, tail.particle) if tail.particle else (base,), action)


def _given(spoken: Spoken, index: int, name: Name, mood: str) -> Action | None:
    """ "Give it a good scrub" is "scrub it"; "give it five minutes" is "wait five minutes"."""
    waited = _waited(spoken, index, "give", name)
    if waited is not None:
        return waited
    i = name.end
    if spoken.text(i) not in ("a", "an", "another"):
        return None
    for j in range(i + 1, min(i + 4, len(spoken.texts))):
        base = kinds(spoken.texts[j]).verb
        what = deed(base) if base == spoken.texts[j] and base not in word_set("seldom_verbs") else None
        placed = phrase_table("verbs", "placed").get(base) if base == spoken.texts[j] else None
        what = what or (Deed((base,), placed) if placed else None)
        if what is not None and base not in phrase_table("verbs", "light") and not spoken.stops_before(j):
            tail = read_tail(spoken, j + 1)
            if {"good", "hard", "proper", "big", "decent"} & set(spoken.texts[i:j]) and not tail.phrases:
                tail.phrases.append("hard" if what.action == "move" else "well")
            return Action(index, tail.end, what, name, tail, mood == "dont", "verb", sure=mood == "do")
    return None


def _waited(spoken: Spoken, index: int, base: str, name: Name | None) -> Action | None:
    """A time to wait: "leave it ten minutes", "give it an hour", "wait for five minutes"."""
    whose = name is not None and (name.vague or (base == "give" and name.text.startswith("the ")))
    start = name.end if name is not None and whose and base != "wait" else index + 1
    if spoken.text(start) == "away":
        start += 1
    time = time_told(spoken, start)
    if time is None:
        return None
    said, end = time
    return Action(index, end, Deed(("wait",), "wait"), None, Tail([said], end), False, "verb", sure=True)


def _let(spoken: Spoken, index: int, name: Name, mood: str) -> Action | None:
    """ "Let the oil drain": the thing and what it is left to do."""
    text = spoken.text(name.end)
    if (
        kinds(text).verb != text
        or text in word_set("seldom_verbs")
        or spoken.stops_before(name.end)
        or text in word_set("particles")
    ):
        return None
    tail = read_tail(spoken, name.end + 1)
    tail.phrases.insert(0, f"{text} {tail.particle}".strip())
    tail.particle = ""
    return Action(index, tail.end, Deed(("let",), "wait"), name, tail, mood == "dont", "verb", sure=mood == "do")


def _without(tail: Tail, what: Deed) -> Tail:
    """The tail without a particle that the deed's own name already tells ("take it out" is "remove")."""
    if tail.particle and what.words[-1] != tail.particle:
        tail.particle = ""
    return tail


def _early_particle(spoken: Spoken, index: int, base: str) -> tuple[str, int]:
    """A particle between verb and thing ("take off the cover"): (particle, next token)."""
    text = spoken.text(index)
    if text not in word_set("particles") or spoken.stops_before(index):
        return "", index
    follows = spoken.text(index + 1)
    if follows in ("it", "them") or (base in phrase_table("verbs", "plain") and follows in word_set("determiners")):
        return "", index  # "look in the hole": a place
    if text == "back" and follows in ("on", "in", "up", "off", "out"):
        return f"back {follows}", index + 2
    if base == "get" and text == "in":
        return "", index  # "get in the corners"
    if text in word_set("early_particles") and not spoken.stops_before(index + 1):
        if text in ("in", "on", "over", "down") and (base, text) not in deeds():
            return "", index
        if text in word_set("places_or_particles") and follows not in word_set("thing_follows"):
            return "", index
        if follows in word_set("no_thing_follows"):
            return "", index
        return text, index + 1
    return "", index


def _complete(spoken: Spoken, base: str, name: Name | None, tail: Tail, mood: str, light: bool) -> bool:
    """Whether enough was said for an instruction."""
    told = bool(tail.particle or tail.phrases)
    if (
        base in word_set("fetching")
        and tail.particle in ("", "out", "back out")
        and (name is None or is_tool_alone(name))
    ):
        return False
    if light and (name is None or not told):
        plain = base in phrase_table("verbs", "plain")
        return name is None and bool(tail.phrases) and (plain or done_about(base, tail.phrases))
    if mood == "perhaps":
        if name is None or (light and base not in word_set("staying")):
            return False
        if name.vague:
            return spoken.text(name.start) in word_set("objects") or (
                bool(tail.particle) and spoken.text(name.start) in ("that", "those", "these")
            )
        nominal = spoken.text(name.start) in word_set("determiners")
        return nominal or bool(name.sightings)
    if mood == "dont":
        return name is not None
    if (
        name is None
        and tail.particle
        and (base, tail.particle) in deeds()
        and deeds()[base, tail.particle].action in phrase_table("verbs", "alone")["classes"]
    ):
        return spoken.stops_before(tail.end) or spoken.text(tail.end) in ("and", "then", "so", ",", ".")
    return name is not None or (
        bool(tail.phrases) and (base in phrase_table("verbs", "plain") or done_about(base, tail.phrases))
    )
