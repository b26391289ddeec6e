"""What is being talked about at each moment: how strongly each item of the table stands before the listener.

An item comes to mind by the words of its names, the more the rarer a word is among the table's names, and fades with every word that follows.
Tool sizes help, since each item has its own; values never do (choosing the item whose number fits would hide the mistakes looked for).
"""

import tomllib
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from math import log, sqrt

from witnessmark.data import read_text
from witnessmark.language.vocabulary import key_of
from witnessmark.specs.table import SpecTable

# Words just said weigh most, and what the talk has been about for the last minutes stays in mind: half-lives in tokens, share of the latter.
HALF_LIFE, LONG_HALF_LIFE, LONG_SHARE = 10.0, 90.0, 0.35
AFTER_NAMED, AFTER_NAMED_HALF_LIFE = 1.15, 14.0
AFTER, AFTER_HALF_LIFE = 0.5, 5.0
REACH_BEFORE = 400
REACH_AFTER = 30


@cache
def place_words() -> dict[str, str]:
    """Every word of data/place_words.toml by the word it is read as."""
    rows: list[list[str]] = tomllib.loads(read_text("place_words.toml"))["same"]
    return {word: row[0] for row in rows for word in row}


@cache
def word_set(name: str) -> frozenset[str]:
    """One of the lists of data/place_words.toml."""
    return frozenset(tomllib.loads(read_text("place_words.toml"))[name])


def canonical(lemmas: Iterable[str]) -> tuple[str, ...]:
    """Lemmas with words of place folded together."""
    folded = place_words()
    return tuple(folded.get(lemma, lemma) for lemma in lemmas)


@dataclass(frozen=True, slots=True)
class Candidate:
    """One item with its strength at a moment."""

    item: str
    strength: float


@dataclass(frozen=True)
class Focus:
    """The items of a table against the words of a recording. lemmas: of all tokens. names: item -> its names' words, empty words left out."""

    lemmas: tuple[str, ...]
    names: dict[str, tuple[tuple[str, ...], ...]]

    @cached_property
    def rarity(self) -> dict[str, float]:
        """Weight of each word of the names: high where few items have it."""
        holders: dict[str, set[str]] = {}
        for item, names in self.names.items():
            for name in names:
                for word in name:
                    holders.setdefault(word, set()).add(item)
        count = max(1, len(self.names))
        return {word: log(1 + count / len(items)) for word, items in holders.items()}

    @cached_property
    def places(self) -> dict[str, list[int]]:
        """Tokens where each word of the names is said."""
        found: dict[str, list[int]] = {word: [] for word in self.rarity}
        for i, lemma in enumerate(self.lemmas):
            if lemma in found:
                found[lemma].append(i)
        return found

    def sayings(self, items: Iterable[str]) -> list[int]:
        """Tokens where a telling word of the items' names is said, not one that most names share."""
        telling = {word for item in items for name in self.names[item] for word in name if self.rarity[word] > log(3)}
        return sorted(i for word in telling for i in self.places[word])

    def strengths(self, at: int, end: int, items: Sequence[str], mask: Sequence[tuple[int, int]] = (), limit: int | None = None, reach: int = REACH_BEFORE) -> list[Candidate]:
        """The items by strength for a value at tokens at..end, strongest first.

        mask: token spans that do not count. limit: token from which what follows does not count. reach: tokens that count before.
        """
        weights = {word: self._weight(word, at, end, mask, limit, reach) for item in items for name in self.names[item] for word in name}
        found = [Candidate(item, max((self._strength(name, weights) for name in self.names[item]), default=0.0)) for item in items]
        return sorted(found, key=lambda candidate: -candidate.strength)

    def _strength(self, name: tuple[str, ...], weights: dict[str, float]) -> float:
        total = sum(self.rarity[word] for word in name)
        return sum(self.rarity[word] * weights[word] for word in name) / sqrt(total) if total else 0.0

    def _weight(self, word: str, at: int, end: int, mask: Sequence[tuple[int, int]], limit: int | None, reach: int) -> float:
        """How present one word is: the nearest saying before counts by its distance, one that follows only while still close."""
        places = self.places[word]
        best = 0.0
        for i in reversed(places[bisect_left(places, at - reach) : bisect_left(places, at)]):
            if not _masked(i, mask):
                best = (1 - LONG_SHARE) * 0.5 ** ((at - i) / HALF_LIFE) + LONG_SHARE * 0.5 ** ((at - i) / LONG_HALF_LIFE)
                break
        stop = end + REACH_AFTER if limit is None else min(limit, end + REACH_AFTER)
        for i in places[bisect_left(places, end) : bisect_left(places, stop)]:
            if not _masked(i, mask):
                return max(best, self._after(i, end))
        return best

    def _after(self, i: int, end: int) -> float:
        """A word after the value counts most in "on the ...", "for the ...": there the speaker names what the value is for."""
        distance = i - end
        named = any(self.lemmas[j] in ("on", "for", "into", "at", "in") for j in range(max(end, i - 4), i))
        return AFTER_NAMED * 0.5 ** (distance / AFTER_NAMED_HALF_LIFE) if named else AFTER * 0.5 ** (distance / AFTER_HALF_LIFE)


def _masked(i: int, mask: Sequence[tuple[int, int]]) -> bool:
    return any(start <= i < end for start, end in mask)


def focus_on(table: SpecTable, lemmas: Sequence[str]) -> Focus:
    """The focus over a whole recording."""
    empty = word_set("empty")
    names: dict[str, tuple[tuple[str, ...], ...]] = {}
    for row in table.rows:
        keys = (tuple(word for word in canonical(key_of(name)) if word not in empty) for name in row.names)
        names[row.item] = tuple(dict.fromkeys((*names.get(row.item, ()), *(key for key in keys if key))))
    return Focus(canonical(lemmas), names)
