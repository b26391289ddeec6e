"""Where one clause ends and the next begins in talk without full stops and verbs: "arm down ball joint up"."""

from witnessmark.procedure.lexicon import kinds, word_set
from witnessmark.procedure.names import read_name
from witnessmark.procedure.spoken import Spoken


def clause_ahead(spoken: Spoken, index: int) -> bool:
    """Whether a thing without an article begins at a token and has a particle or a verb of its own.

    What stands before it is no preposition that leads to it: "mask on, hoover out".
    """
    if spoken.text(index) in word_set("determiners") or spoken.text(index) in word_set("pronouns"):
        return False
    name = read_name(spoken, index)
    if name is None or name.vague or spoken.stops_before(name.end):
        return False
    text, follows = spoken.text(name.end), spoken.text(name.end + 1)
    if text in word_set("prepositions") and follows in word_set("determiners"):
        return False
    return text in word_set("clause_particles") or text in word_set("clause_verbs")


def describes(spoken: Spoken, index: int) -> bool:
    """Whether a word that can be a verb tells one thing from another: "lower cover back on", "drive belt off"."""
    text, follows = spoken.text(index), spoken.text(index + 1)
    if text not in word_set("name_words") or not kinds(text).verb or spoken.stops_before(index + 1):
        return False
    if follows in word_set("determiners") or follows in word_set("pronouns") or follows in word_set("particles"):
        return False
    name = read_name(spoken, index)
    if name is None or name.vague or name.end - index < 2:
        return False
    after = spoken.text(name.end)
    own = after in word_set("clause_particles") or after in word_set("clause_verbs")
    return own or spoken.value_over.get(name.end) is not None
