"""The trade's own words: tools, parts, fasteners, supplies, each with the other names that people say."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal

from witnessmark.data import read_rows
from witnessmark.language.tokens import tokenize
from witnessmark.language.words import singular

Kind = Literal["tool", "part", "fastener", "supply"]


@dataclass(frozen=True, slots=True)
class Term:
    """One thing of the trade. forms: every way it is said. short: heads that mean it only where the context is right.

    traits: what the rules ask of it, such as "sizing:head", "one_time:yes", "critical:yes", "takes_torque:yes".
    """

    name: str
    kind: Kind
    forms: tuple[str, ...]
    short: tuple[str, ...]
    traits: frozenset[str]


_FILES: tuple[tuple[str, Kind, tuple[str, ...]], ...] = (
    ("tools", "tool", ("sizing", "group")),
    ("fasteners", "fastener", ("thread_role", "one_time", "critical", "group")),
    ("parts", "part", ("takes_torque", "group")),
    ("supplies", "supply", ("measured", "group")),
)


def split_names(cell: str) -> tuple[str, ...]:
    """The names in one `;`-separated cell."""
    return tuple(name.strip() for name in cell.split(";") if name.strip())


@cache
def terms() -> tuple[Term, ...]:
    """The packaged vocabulary, in file order."""
    return tuple(
        _term(kind, traits, row) for file, kind, traits in _FILES for row in read_rows(f"vocabulary/{file}.csv")
    )


def _term(kind: Kind, traits: tuple[str, ...], row: dict[str, str]) -> Term:
    """A row; a name that stands among its own short forms ("door") is too common to be matched wherever it is said."""
    short = split_names(row["short"])
    forms = tuple(form for form in (row["name"], *split_names(row["also_called"])) if form not in short)
    return Term(
        row["name"], kind, forms, short, frozenset(f"{trait}:{row[trait]}" for trait in traits if row.get(trait))
    )


def tokens_of(name: str) -> tuple[str, ...]:
    """A name as the tokens of speech."""
    return tuple(token for word in name.split() for token in tokenize(word))


def lemmas_of(tokens: Iterable[str]) -> tuple[str, ...]:
    """Tokens with plural and spelling folded away."""
    return tuple(singular(token) for token in tokens)


@cache
def key_of(name: str) -> tuple[str, ...]:
    """What two spoken names of one thing have in common.

    >>> key_of("Lug Nuts") == key_of("lug nut")
    True
    """
    return lemmas_of(tokens_of(name))


def contains(words: Sequence[str], part: Sequence[str]) -> bool:
    """Whether `part` stands in `words` as a run."""
    size = len(part)
    return any(tuple(words[i : i + size]) == tuple(part) for i in range(len(words) - size + 1))
