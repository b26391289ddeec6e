"""Where one clause ends and the next begins in talk without full stops and verbs: "arm down ball joint up"."""

from witnessmark.procedure.lexicon import deeds, kinds, phrase_table, word_set
from witnessmark.procedure.names import read_name
from witnessmark.procedure.spoken import Spoken, is_nominal


def clause_ahead(spoken: Spoken, index: int, placed: bool = False) -> bool:
    """Whether a thing without an article begins at a token and has a particle or a verb of its own.

    What stands before it is no preposition that leads to it: "mask on, hoover out". placed: a place of its own counts
    too: "tray under, towels round the tray".
    """
    if spoken.text(index) in word_set("determiners") or spoken.text(index) in word_set("pronouns"):
        return False
    name = read_name(spoken, index)
    if name is None or name.vague or spoken.stops_before(name.end):
        return False
    text, follows = spoken.text(name.end), spoken.text(name.end + 1)
    if text in word_set("prepositions") and follows in word_set("determiners"):
        return placed
    compound = spoken.sighting_over.get(name.end) if not name.sightings and name.end - index == 1 else None
    return has_own(spoken, name.end) or (compound is not None and has_own(spoken, compound.end))


def has_own(spoken: Spoken, index: int) -> bool:
    """Whether a particle or a verb stands here that belongs to the thing before it."""
    text = spoken.text(index)
    return text in word_set("clause_particles") or text in word_set("clause_verbs")


def begins_clause(spoken: Spoken, index: int, since: int) -> bool:
    """Whether a clause begins at a token: behind an action, a stop or a joining word. since: where the action before it ended."""
    return index == since or spoken.stops_before(index) or spoken.text(index - 1) in word_set("bare_starters")


def describes(spoken: Spoken, index: int) -> bool:
    """Whether a word that can be a verb tells which thing is meant or what it is like."""
    return _tells_apart(spoken, index) or _tells_like(spoken, index)


def _tells_apart(spoken: Spoken, index: int) -> bool:
    """ "Lower cover back on", "drive belt off"."""
    text, follows = spoken.text(index), spoken.text(index + 1)
    if text not in word_set("name_words") or not kinds(text).verb or spoken.stops_before(index + 1):
        return False
    if follows in word_set("determiners") or follows in word_set("pronouns") or follows in word_set("particles"):
        return False
    name = read_name(spoken, index)
    if name is None or name.vague or name.end - index < 2:
        return False
    return has_own(spoken, name.end) or spoken.value_over.get(name.end) is not None


def _tells_like(spoken: Spoken, index: int) -> bool:
    """ "Level floor", "clear hose from the bleeder"."""
    text, follows = spoken.texts[index], spoken.text(index + 1)
    if not kinds(text).adjective or kinds(text).verb != text or spoken.stops_before(index + 1):
        return False
    name = read_name(spoken, index + 1) if is_nominal(follows) and follows not in word_set("name_words") else None
    return name is not None and not name.vague and not name.plural and name.text.startswith("the ")


def is_noun_here(spoken: Spoken, index: int) -> bool:
    """Whether a word that can be both is the thing: "trim back on", "plug out", where "the trim" was said elsewhere."""
    text, follows = spoken.texts[index], spoken.text(index + 1)
    if follows in word_set("programmes") or _moved_stuff(spoken, index) or _goes_back(spoken, index):
        return True
    if follows not in word_set("noun_follows") or not kinds(text).noun:
        return False
    return text in spoken.nouns and (
        spoken.text(index + 2) not in word_set("determiners") or follows == "back" or (text, follows) not in deeds()
    )


def _goes_back(spoken: Spoken, index: int) -> bool:
    """ "Shield back on": what no verb of moving is, goes back itself."""
    text, where = spoken.texts[index], spoken.text(index + 2)
    if spoken.text(index + 1) != "back" or where not in ("on", "in") or not kinds(text).noun:
        return False
    moves = (text, "back") in deeds() or (text, where) in deeds() or text in phrase_table("verbs", "light")
    return not moves and text not in phrase_table("verbs", "placed") and text not in word_set("rather_verbs")


def _moved_stuff(spoken: Spoken, index: int) -> bool:
    """ "It 's slung grease on everything", "put oil on": behind a verb it is the stuff."""
    before = kinds(spoken.text(index - 1))
    acts = bool(before.verb) and not before.adverb and not spoken.stops_before(index)
    asks = spoken.text(index - 1) in word_set("half_frames") or spoken.text(index - 1) in word_set("auxiliaries")
    return spoken.texts[index] in word_set("stuff_verbs") and acts and not asks and before.verb not in ("go", "help")


def own_clause(spoken: Spoken, index: int) -> bool:
    """Whether a pronoun behind a particle begins a clause of its own: "filter off it was black".

    Behind "in" and "on" it is where the thing is: "the bolt in it is long".
    """
    if spoken.text(index) not in ("it", "that", "they") or spoken.text(index - 1) in ("in", "on"):
        return False
    follows = spoken.text(index + 1)
    return follows in word_set("tells_of_it") or (follows in word_set("auxiliaries") and follows not in ("has", "have"))
