"""Words at which a name in speech ends, or goes on."""

from collections.abc import Sequence

from witnessmark.language.words import singular
from witnessmark.procedure.lexicon import deeds, kinds, phrase_table, word_set
from witnessmark.procedure.spoken import Spoken, is_plural


def new_dab(spoken: Spoken, i: int) -> bool:
    """Whether a word begins the name of some stuff: "groove, dab of sealant"."""
    return spoken.texts[i] in word_set("dabs") | word_set("lengths") and spoken.text(i + 1) == "of"


def new_count(spoken: Spoken, i: int) -> bool:
    """Whether a count begins another name: "mud guard, four bolts"."""
    counts = spoken.texts[i] in word_set("fastener_counts")
    return counts and (is_plural(spoken.text(i + 1)) or is_plural(spoken.text(i + 2)))


def closed_plural(words: Sequence[str]) -> bool:
    """Whether a plural ends a name: English says "door catch", not "doors catch"."""
    last = words[-1]
    return is_plural(last) and kinds(last).noun and singular(last) != last and not kinds(last).adjective


def names_a_thing(spoken: Spoken, i: int, before: Sequence[str]) -> bool:
    """Whether a word before a particle is a thing and no verb: "lower cover back on". before: the name's words so far."""
    text, follows = spoken.texts[i], spoken.text(i + 1)
    if kinds(text).verb in word_set("rather_verbs") or not kinds(text).noun:
        return False
    if (text, follows) in deeds() and (before or text not in spoken.nouns):
        return False
    if not before:
        return True
    if is_plural(text) and text != "pulls" and spoken.text(i - len(before) - 1) in word_set("determiners"):
        return all(word in word_set("name_words") for word in before)  # "the old races out"
    one = not is_plural(text) and not text.endswith("ing")
    if {before[-1], text} <= word_set("spread_stuff"):
        return True  # "paste wax on the iron"
    return one and not is_plural(before[-1]) and (before[-1] in word_set("name_words") or text in spoken.nouns)


def moves_off(spoken: Spoken, i: int) -> bool:
    """Whether a word is what the thing before it does: "the drum slides right off"."""
    text, before = spoken.texts[i], spoken.text(i - 1)
    does = text.endswith("s") and kinds(text).verb in phrase_table("verbs", "of_things") and not is_plural(before)
    softened = spoken.text(i + 1) in word_set("before_off")
    return does and softened and spoken.text(i + 2) in ("off", "out")


def supply_article(spoken: Spoken, index: int, end: int, text: str) -> str:
    """The article of a supply said without one: stuff has none, a rag has."""
    if text not in word_set("countable_supplies"):
        return "some"
    return "the" if text in spoken.texts[:index] or spoken.text(end) in ("out", "off") else "a"
