"""What can be done to what: only a fluid is drained, a hole is not lifted, a blade is filed and a seal is not spun."""

from functools import cache

from witnessmark.language.words import singular
from witnessmark.procedure.lexicon import Deed, phrase_table


@cache
def _heads(table: str, name: str) -> frozenset[str]:
    found: list[str] = phrase_table("selection", table)[name]
    return frozenset(found)


def suits(name: str, kind: str, what: Deed) -> bool:
    """Whether a thing that "it" may stand for can be what is done to it. name: without its article. kind: of the vocabulary."""
    head = singular(name.split(",")[0].split()[-1])
    for group in ("features", "stuff"):
        if head in _heads(group, "words") and what.action not in _heads(group, "classes"):
            return False
    said = " ".join(what.words)
    only = phrase_table("selection", "only")
    names: list[str] | None = only.get(said, only.get(what.words[0]))
    return names is None or head in names or kind in names
