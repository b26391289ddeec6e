"""Things named first and told of by a pronoun: "the shroud, that just lifts off", "the filter it gets thrown away"."""

from dataclasses import replace

from witnessmark.procedure.bare import ends_before
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import form_of, kinds, phrase_table, word_set
from witnessmark.procedure.names import Name
from witnessmark.procedure.spoken import Spoken

POINTS = ("that", "it", "they", "those", "these", "she", "he")


def past_pronoun(spoken: Spoken, thing: Name) -> Name:
    """The name with the pronoun behind it that stands for it; the name itself where none does.

    "The cover that goes over the gear" tells which cover is meant, not what becomes of it.
    """
    at = thing.end + (spoken.text(thing.end) == ",")
    determined = spoken.text(thing.start) in word_set("determiners")
    if thing.vague or not determined or spoken.text(at) not in POINTS or spoken.stops_before(at + 1):
        return thing
    i = at + 1
    while spoken.text(i) in word_set("before_itself"):
        i += 1
    verb = spoken.text(i)
    base = kinds(verb).verb
    goes = base == "go" and (spoken.text(at) != "that" or spoken.stops_before(thing.end))
    moves = base in ("come", "get") or goes or base in phrase_table("verbs", "of_things")
    plural = spoken.text(at) in ("they", "those", "these")
    fits = form_of(verb, base) == ("base" if plural else "s") if base else False
    return replace(thing, end=at + 1) if moves and fits and plural == thing.plural else thing


def is_topic(spoken: Spoken, told: Action | None) -> Action | None:
    """The action told of such a thing; None where its clause goes on: "the cover that comes off first is thin"."""
    if told is None or not (spoken.stops_before(told.end) or ends_before(spoken, told.end)):
        return None
    return None if spoken.text(told.end) in word_set("auxiliaries") else told
