"""What words tell of a thing that a kit may hold, by the packaged vocabulary and data/kit.toml."""

from functools import cache

from witnessmark.data import read_toml
from witnessmark.language.vocabulary import Kind, key_of, terms
from witnessmark.reading.focus import place_words
from witnessmark.units import units


@cache
def kit_words(name: str) -> tuple[str, ...]:
    """One of the lists of data/kit.toml."""
    found: tuple[str, ...] = tuple(read_toml("kit.toml")[name])
    return found


@cache
def keys_of(name: str) -> frozenset[tuple[str, ...]]:
    """The same list as the words are compared."""
    return frozenset(key_of(word) for word in kit_words(name))


@cache
def which_words() -> frozenset[str]:
    """Words before a name that say which one is meant."""
    return (frozenset(kit_words("which")) | frozenset(place_words())) - frozenset(kit_words("no_names"))


@cache
def heads() -> dict[str, Kind]:
    """The bare heads of the vocabulary by kind of thing; a head of several kinds is a fastener's or part's first."""
    found: dict[str, Kind] = {}
    order: tuple[Kind, ...] = ("fastener", "part", "supply", "tool")
    for term in sorted(terms(), key=lambda term: order.index(term.kind)):
        for short in term.short:
            key = key_of(short)
            if len(key) == 1 and key[0] not in _units():
                found.setdefault(key[0], term.kind)
    return found


@cache
def _names_of_heads() -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for term in terms():
        for short in term.short:
            found[short] = (*found.get(short, ()), term.name)
    return found


def only_name(head: str) -> str:
    """The one name of the vocabulary that a head is short for, else the head itself."""
    names = _names_of_heads().get(head, ())
    return names[0] if len(names) == 1 else head


@cache
def _units() -> frozenset[str]:
    """Words that are units before they are things: `meter`, `foot`."""
    forms = (form for unit in units().values() for form in (*unit.spoken, *unit.after_number, *unit.short))
    return frozenset(word for form in forms for word in key_of(form))


@cache
def _forms() -> dict[str, frozenset[str]]:
    return {term.name: frozenset(term.forms) for term in terms()}


def is_form(text: str, name: str) -> bool:
    """Whether a thing is said in just these letters: `calipers` are the tool, `caliper` is rather the part."""
    return text in _forms().get(name, frozenset())


@cache
def loose_roles() -> frozenset[str]:
    """Traits of the fasteners that are bought and laid out like parts: washers, pins and keys."""
    return frozenset(f"thread_role:{role}" for role in kit_words("part_roles"))


@cache
def _last_words() -> dict[str, str]:
    """Last word of every name of the vocabulary, and what kind of thing it ends the name of."""
    found: dict[str, set[str]] = {}
    for term in terms():
        for form in (*term.forms, *term.short):
            found.setdefault(key_of(form)[-1], set()).add(term.kind)
    return {
        word: next(kind for kind in ("supply", "part", "fastener", "tool") if kind in kinds_)
        for word, kinds_ in found.items()
    }


def kind_said(key: tuple[str, ...]) -> str | None:
    """`part` or `supply` by the last word of a name, None where that tells neither."""
    kind = _last_words().get(key[-1])
    return kind if kind in ("part", "supply") else None
