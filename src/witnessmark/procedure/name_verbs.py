"""Verbs that are words of a name in the table: "feed dogs" for the feed dog screws, "clamp screw", "lock nut"."""

from functools import cache

from witnessmark.language.words import singular
from witnessmark.procedure.lexicon import kinds, word_set
from witnessmark.procedure.spoken import Spoken, is_nominal


def is_of_a_name(spoken: Spoken, index: int) -> bool:
    """Whether a word that can be a verb stands here in a name that the table knows."""
    text, follows = spoken.texts[index], spoken.text(index + 1)
    if not kinds(text).noun or spoken.stops_before(index + 1) or follows in word_set("determiners"):
        return False
    names = (*spoken.table_names, *(value.item for value in spoken.values if value.item))
    if (text, singular(follows)) in _pairs(tuple(dict.fromkeys(names))):
        return True
    moved = spoken.text(index + 2) in word_set("clause_particles") and is_nominal(follows)
    if moved and text in spoken.nouns and any(text in name.split() for name in names):
        return True  # "chuck key out", where the chuck was spoken of
    counted = follows in word_set("numbers") and text in word_set("rather_things")
    return counted and any(text in name.split() for name in names)  # "strap forty"


@cache
def _pairs(names: tuple[str, ...]) -> frozenset[tuple[str, str]]:
    """Words that stand side by side in names, the second in the singular."""
    return frozenset(
        (first, singular(second))
        for name in names
        for first, second in zip(name.split(), name.split()[1:], strict=False)
    )
