"""What the vocabulary knows of a thing by any of its names."""

from functools import cache

from witnessmark.language.vocabulary import key_of, terms


@cache
def _by_key() -> dict[tuple[str, ...], frozenset[str]]:
    found: dict[tuple[str, ...], frozenset[str]] = {}
    for term in terms():
        for form in term.forms:
            found.setdefault(key_of(form), term.traits)
    return found


@cache
def traits_of(name: str) -> frozenset[str]:
    """Traits such as "critical:yes" of the vocabulary's term that a name ends with, longest first; () where none does.

    "front caliper bracket bolts" has the traits of "caliper bracket bolt".
    """
    key = key_of(name.partition(",")[0])
    return next((_by_key()[key[i:]] for i in range(len(key)) if key[i:] in _by_key()), frozenset())
