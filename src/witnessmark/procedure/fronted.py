"""Things named before the clause that tells what is done to them: "the tank I have emptied outside"."""

from witnessmark.procedure.clauses import begins_clause
from witnessmark.procedure.lexicon import kinds, word_set
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import read_tail

FRAME = 6  # tokens of "I'm going to" between a thing and its verb
NAME = 6  # tokens of the thing


def fronted(spoken: Spoken, index: int, since: int) -> Name | None:
    """The thing of the verb at a token where it stands before the verb's subject; None where none does."""
    subject = _subject(spoken, index, since)
    if subject is None or _has_object(spoken, index + 1):
        return None
    for start in range(max(since, subject - NAME), subject):
        name = read_name(spoken, start) if _may_begin(spoken, start, since) else None
        if name is not None and name.end == subject:
            told = not name.vague and (name.sightings or spoken.text(start) in word_set("determiners"))
            return name if told and not _is_subject(spoken, index) else None
    return None


def _subject(spoken: Spoken, index: int, since: int) -> int | None:
    """The speaker or the reader before a verb, with nothing but a frame between."""
    for at in range(index - 1, max(since, index - FRAME) - 1, -1):
        if spoken.stops_before(at + 1):
            return None
        if spoken.texts[at] in ("i", "we", "you"):
            return at if not spoken.stops_before(at) else None
    return None


def _may_begin(spoken: Spoken, index: int, since: int) -> bool:
    """Whether a clause can begin at a token; in talk without stops behind a noun, a pronoun or an adverb."""
    if begins_clause(spoken, index, since):
        return True
    before = spoken.text(index - 1)
    if spoken.text(index) == "that" and before in ("one", "ones"):
        return False  # "the ones that sink you"
    led = before in word_set("prepositions") | word_set("determiners") | word_set("auxiliaries")
    if spoken.text(index) not in word_set("determiners") or led:
        return False
    named = spoken.sighting_over.get(index - 1) is not None or spoken.text(index - 2) in word_set("determiners")
    what = kinds(before)
    return named or before in word_set("objects") or ((what.noun or what.adverb) and not what.verb)


def _has_object(spoken: Spoken, index: int) -> bool:
    """Whether a thing stands right behind the verb."""
    name = None if spoken.stops_before(index) else read_name(spoken, index)
    led = spoken.text(index) in word_set("determiners") | word_set("pronouns")
    return name is not None and (led or bool(name.sightings))


def _is_subject(spoken: Spoken, index: int) -> bool:
    """Whether the clause only tells which thing is meant: "the bolts you took out go back in"."""
    end = read_tail(spoken, index + 1).end
    text = spoken.text(end)
    acts = bool(kinds(text).verb) and not spoken.stops_before(end) and text not in word_set("conjunctions")
    return text in word_set("auxiliaries") or text in word_set("clause_verbs") or acts
