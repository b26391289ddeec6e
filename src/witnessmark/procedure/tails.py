"""What follows the thing in a sentence: where to, with what, how far, until when."""

from dataclasses import replace
from functools import cache

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.clauses import clause_ahead, own_clause
from witnessmark.procedure.facing import facing
from witnessmark.procedure.lexicon import acting_verbs, deeds, form_of, kinds, phrase_table, word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tail import Tail as Tail
from witnessmark.procedure.tail_clauses import if_so, where_it_was

LONGEST_TAIL = 3
LONGEST_UNTIL = 8


def read_tail(spoken: Spoken, index: int, particle: str = "") -> Tail:
    """Everything from a token on that belongs to the action."""
    tail = Tail([], index, particle)
    while len(tail.phrases) < LONGEST_TAIL and not spoken.stops_before(tail.end):
        if (
            spoken.text(tail.end) in word_set("softeners")
            and tail.end > index
            and spoken.text(tail.end + 1)
            in (word_set("places") | word_set("manner") | word_set("particles")) - {"away"}
        ):
            tail.end += 1
        if not (
            _facing(spoken, tail)
            or _set_phrase(spoken, tail)
            or _particle(spoken, tail)
            or _manner(spoken, tail)
            or _until(spoken, tail)
            or _into_it(spoken, tail)
            or _by_doing(spoken, tail)
            or if_so(spoken, tail)
            or where_it_was(spoken, tail)
            or (not clause_ahead(spoken, tail.end + 1) and _place(spoken, tail))
        ):
            break
    return tail


def _facing(spoken: Spoken, tail: Tail) -> bool:
    """ "Fat side down"."""
    found = facing(spoken, tail.end)
    if found is not None:
        tail.phrases.append(found[0])
        tail.end = found[1]
    return found is not None


def _particle(spoken: Spoken, tail: Tail) -> bool:
    """A particle that no name follows."""
    text = spoken.text(tail.end)
    if text not in word_set("particles"):
        return False
    if tail.particle:
        if text not in word_set("results") or spoken.text(tail.end + 1) in word_set("determiners") | {"of"}:
            return False
        tail.phrases.append(text)
        tail.end += 1
        return True
    follows = spoken.text(tail.end + 1)
    if text == "in" and _later(spoken, tail.end + 1) is not None:
        return False
    if (
        text in word_set("prepositions")
        and not spoken.stops_before(tail.end + 1)
        and follows not in ("of", "and")
        and facing(spoken, tail.end + 1) is None
        and (text != "off" or follows not in word_set("prepositions"))
        and spoken.texts[tail.end + 1 : tail.end + 3] not in (("finger", "tight"), ("hand", "tight"))
        and (text not in ("up", "down") or follows in word_set("determiners") | word_set("leads_up"))
    ):
        name = read_name(spoken, tail.end + 1)
        if (
            name is not None
            and not (name.vague and follows not in word_set("owners"))
            and not _acts(spoken, tail.end + 1)
            and not clause_ahead(spoken, tail.end + 1)
            and not own_clause(spoken, tail.end + 1)
            and facing(spoken, tail.end + 1) is None
            and not _bare_behind_off(spoken, tail.end, name)
        ):
            return False
    if text == "out" and follows == "of":
        return False
    if (
        text in ("in", "on", "over", "at")
        and follows in ("the", "a", "an", "my", "your")
        and not spoken.stops_before(tail.end + 1)
    ):
        return False
    tail.particle = text
    tail.end += 1
    if text in ("back", "straight") and spoken.text(tail.end) in word_set("second_particles"):
        second = spoken.text(tail.end)
        name = read_name(spoken, tail.end + 1)
        if name is None or name.vague or spoken.stops_before(tail.end + 1) or _acts(spoken, tail.end + 1):
            tail.particle = f"{text} {second}" if text == "back" else second
            tail.end += 1
    return True


def _bare_behind_off(spoken: Spoken, index: int, name: Name) -> bool:
    """ "Shut it off key in your pocket": one word without an article begins a new clause."""
    led = spoken.text(index + 1) in word_set("determiners") | word_set("pronouns")
    return spoken.text(index) == "off" and not led and name.end == index + 2


def _acts(spoken: Spoken, index: int) -> bool:
    """Whether a word begins the next action and not a name."""
    text, follows = spoken.text(index), spoken.text(index + 1)
    return (
        kinds(text).verb == text
        and (
            follows in word_set("determiners")
            or follows in word_set("pronouns")
            or ((text, follows) in deeds() and spoken.text(index + 2) in word_set("determiners"))
        )
        and text not in word_set("determiners")
    )


def _manner(spoken: Spoken, tail: Tail) -> bool:
    """One word on how."""
    text = spoken.text(tail.end)
    if (
        text in word_set("between")
        and text not in word_set("manner")
        and spoken.text(tail.end + 1) in word_set("manner")
    ):
        tail.end += 1
        text = spoken.text(tail.end)
    if text not in word_set("manner"):
        return False
    tail.phrases.append("slowly" if text == "slow" else text)
    tail.end += 1
    return True


@cache
def _set_phrases() -> dict[str, tuple[tuple[tuple[str, ...], str], ...]]:
    """Fixed phrases by their first word, longest first: (as said, as written)."""
    found: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for said, shown in phrase_table("tails", "phrases").items():
        words = tuple(said.split())
        found.setdefault(words[0], []).append((words, shown))
    return {first: tuple(sorted(rows, key=lambda row: -len(row[0]))) for first, rows in found.items()}


def _set_phrase(spoken: Spoken, tail: Tail) -> bool:
    """A fixed phrase such as "by hand", "in a star", "half a turn"."""
    for said, shown in _set_phrases().get(spoken.text(tail.end), ()):
        measured = shown == "slightly" and spoken.text(tail.end + len(said)) == "of"  # "a bit of wire"
        leads = said[-1] == "between" and spoken.text(tail.end + len(said)) in word_set("determiners")
        if spoken.texts[tail.end : tail.end + len(said)] == said and not measured and not leads:
            if shown:
                tail.phrases.append(shown)
            tail.end += len(said)
            _of_what(spoken, tail)
            return True
    return False


def _of_what(spoken: Spoken, tail: Tail) -> None:
    """ "On both sides of the wheel", "in the middle of the tray"."""
    name = read_name(spoken, tail.end + 1) if spoken.text(tail.end) == "of" else None
    if name is None or name.vague or not tail.phrases or tail.phrases[-1].split()[-1] not in word_set("parts_of"):
        return
    tail.phrases[-1] += f" of {name.text}"
    tail.sightings += name.sightings
    tail.end = name.end


def _until(spoken: Spoken, tail: Tail) -> bool:
    """ "Until it clicks": a short clause of a thing and what it does."""
    if spoken.text(tail.end) not in ("until", "till", "til"):
        return False
    words, i = ["until"], tail.end + 1
    while i < len(spoken.texts) and len(words) <= LONGEST_UNTIL and not spoken.stops_before(i):
        text = spoken.texts[i]
        forbids = text == "do" and spoken.text(i + 1) == "n't" and spoken.text(i - 1) not in ("you", "they", "we")
        if text in PUNCTUATION or forbids or (text in word_set("until_ends") and words != ["until", "you"]):
            break
        if text in word_set("persons"):
            return False
        if text in ("it", "they", "that") and len(words) > 2 and words[1] != "you":
            break
        words.append({"he": "it", "she": "it", "him": "it", "her": "it", "your": "the", "my": "the"}.get(text, text))
        i += 1
    perceived = words[1:2] == ["you"] and len(words) > 3 and words[2] in word_set("perceived")
    if len(words) < 3 or words[1] in ("then", "now") or len(words) > LONGEST_UNTIL:
        return False
    if words[1] == "you" and not perceived:
        return False
    if words[-1] in word_set("unfinished"):
        return False
    tail.phrases.append(" ".join(words).replace(" '", "'").replace(" n't", "n't"))
    tail.end = i
    return True


def _into_it(spoken: Spoken, tail: Tail) -> bool:
    """A place that only a pronoun tells, before what ends the work: "down in it till it comes out"."""
    leads = spoken.text(tail.end) in ("in", "into", "on") and spoken.text(tail.end + 1) in ("it", "them", "there")
    if not leads or spoken.text(tail.end + 2) not in ("until", "till", "til"):
        return False
    past = replace(tail, end=tail.end + 2)
    found = _until(spoken, past)  # both write to one list of phrases
    tail.end = past.end if found else tail.end
    return found


def _by_doing(spoken: Spoken, tail: Tail) -> bool:
    """ "By turning the big pulley by hand"."""
    verb = spoken.text(tail.end + 1)
    base = kinds(verb).verb
    if spoken.text(tail.end) != "by" or base not in acting_verbs() or form_of(verb, base) != "ing":
        return False
    name = read_name(spoken, tail.end + 2)
    if name is None or name.vague:
        return False
    how = read_tail(spoken, name.end)
    tail.phrases.append(" ".join(word for word in ("by", verb, name.text, how.particle, *how.phrases) if word))
    tail.sightings += (*name.sightings, *how.sightings)
    tail.end = how.end
    return True


def _stuff(spoken: Spoken, tail: Tail, words: list[str], i: int) -> bool:
    """ "With the fresh DOT 4": a fluid told by its grade alone."""
    while spoken.text(i) in ("the", "some", "a", "fresh", "new", "clean", "good", "more"):
        i += 1
    value = spoken.value_over.get(i)
    if words[-1] != "with" or value is None or value.start_token != i or value.kind != "grade" or value.quoted:
        return False
    fluid = value.item if value.item and not set(value.item.split()) & set(value.shown.split()) else ""
    tail.phrases.append(f"with {value.shown} {fluid}".strip())
    tail.values += (value,)
    tail.end = value.end_token
    return True


def _later(spoken: Spoken, index: int) -> ValueAt | None:
    """How much later something is done again: "check them again in fifty miles"."""
    at = index + (spoken.text(index) in ("about", "another"))
    value = spoken.value_over.get(at)
    later = value is not None and value.start_token == at and value.kind in ("distance", "duration", "interval")
    again = "again" in spoken.texts[max(0, index - 4) : index] or (value is not None and value.kind != "duration")
    return value if value is not None and later and again and not value.quoted else None


def _place(spoken: Spoken, tail: Tail) -> bool:
    """A preposition and what it leads to: a name or a value."""
    i = tail.end
    if spoken.text(i) in ("in", "at") and (value := _later(spoken, i + 1)) is not None:
        tail.phrases.append(f"after {value.shown}")
        tail.values += (value,)
        tail.end = value.end_token
        return True
    words: list[str] = []
    timed = spoken.text(i) in ("after", "every", "about") or (
        spoken.text(i) in ("for", "to", "at") and spoken.text(i + 1) in ("about", "around", "between")
    )
    if timed:
        skip = 1 if spoken.text(i + 1) in ("about", "around", "like", "between", "another") else 0
        value = spoken.value_over.get(i + 1 + skip)
        if value is None or value.quoted or value.kind in ("tool_size", "torque"):
            return False
        tail.phrases.append(f"{spoken.texts[i]} {value.shown}")
        tail.values += (value,)
        tail.end = value.end_token
        return True
    while (
        spoken.text(i) in word_set("places") | {"out", "back"}
        and len(words) < 3
        and (not words or not spoken.stops_before(i))
    ):
        words.append(spoken.texts[i])
        i += 1
    if not words or spoken.stops_before(i) or (len(words) == 1 and words[0] in ("back", "out")):
        return False
    if words[-1] in ("out", "back"):
        return False
    if words == ["for"] and spoken.text(i) in word_set("found_for"):
        tail.phrases.append(f"for {spoken.text(i)}")
        tail.end = i + 1
        return True
    if words == ["to"] and spoken.text(i) in word_set("what_for"):
        return False  # "pull it to make room"
    if words == ["of"] or (_acts(spoken, i) and spoken.sighting_over.get(i) is None):
        return False
    if _stuff(spoken, tail, words, i):
        return True
    value = spoken.value_over.get(i)
    if value is not None and value.start_token == i and value.kind != "tool_size":
        return _at_value(tail, words, value)
    return _at_name(spoken, tail, words, i)


def _at_value(tail: Tail, words: list[str], value: ValueAt) -> bool:
    """ "To 2 mm", "at 90°"."""
    if value.quoted or value.kind == "torque":
        return False  # a torque is told by the tightening it belongs to
    tail.phrases.append(f"{' '.join(words)} {value.shown}")
    tail.values += (value,)
    tail.end = value.end_token
    return True


def _with_other_end(spoken: Spoken, name: Name) -> Name:
    """ "Between the case and the joint": both are told."""
    determined = spoken.text(name.end + 1) in ("the", "a", "an")
    if (name.plural and not determined) or spoken.text(name.end) != "and":
        return name
    other = read_name(spoken, name.end + 1)
    if other is None or other.vague or spoken.text(other.end) in word_set("auxiliaries"):
        return name
    return replace(
        name,
        end=other.end,
        text=f"{name.text} and {other.text}",
        plural=True,
        sightings=(*name.sightings, *other.sightings),
    )


def _state(spoken: Spoken, name: Name) -> str:
    """ "With the parking brake set", "with the lid open": how a thing is meanwhile; of a tool nothing of the kind is told."""
    text, follows = spoken.text(name.end), spoken.text(name.end + 1)
    tool = bool(name.sightings) and name.sightings[-1].kind == "tool" and name.head not in word_set("stays_on")
    leads = follows in word_set("determiners") | word_set("pronouns") | word_set("places") and not spoken.stops_before(
        name.end + 1
    )
    if text == "on" and name.head in phrase_table("verbs", "worn")["things"]:
        return text  # "with your mask on"
    if tool or leads or spoken.stops_before(name.end):
        return ""
    return text if text in word_set("states") else ""


def _at_name(spoken: Spoken, tail: Tail, words: list[str], i: int) -> bool:
    """ "Under the hose", "with the 14"."""
    name = read_name(spoken, i)
    if name is None or (name.vague and not name.sizes) or name.text.startswith("any "):
        return False
    own = words[-1] in ("with", "by", "of") or spoken.text(i) not in ("the", "a", "an", "each")
    if name.head in word_set("body") and not name.sightings and own:
        tail.end = name.end
        return True
    if name.vague:
        tail.sizes += name.sizes
        tail.end = name.sizes[-1].end_token
        return True
    name = _with_other_end(spoken, name) if words[-1] == "between" else name
    said = name.text
    bare = (
        not name.plural
        and not name.sightings
        and spoken.text(i) not in word_set("determiners")
        and name.end - name.start == 1
    )
    if words == ["with"] and name.head in word_set("sounds_made"):
        tail.end = name.end  # "it comes off with a squeak"
        return True
    if words == ["with"] and name.head in word_set("lends_a_hand"):
        tail.phrases.append("with a helper")
        other = spoken.texts[name.end : name.end + 4]
        tail.end = name.end + 4 * (other in (("on", "the", "other", "side"), ("on", "the", "other", "end")))
        return True
    sought = words[-1] == "for" and name.plural and spoken.text(i) not in word_set("determiners") and not name.count
    state = _state(spoken, name) if words == ["with"] else ""
    tail.phrases.append(f"{' '.join(words)} {said.removeprefix('the ') if bare or sought else said} {state}".strip())
    tail.sightings += name.sightings
    tail.sizes += name.sizes
    tail.end = name.end + bool(state)
    return True
