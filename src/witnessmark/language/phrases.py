"""Phrases found in a run of words."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Generic, TypeVar

T = TypeVar("T")


class Phrases(Generic[T]):
    """Phrases, each a row of words with what it stands for, kept by their first word. A row without words is left out."""

    def __init__(self, phrases: Iterable[tuple[tuple[str, ...], T]]) -> None:
        self._by_first: dict[str, list[tuple[tuple[str, ...], T]]] = {}
        for words, meaning in phrases:
            if words:
                self._by_first.setdefault(words[0], []).append((words, meaning))

    def said(self, words: Sequence[str]) -> Iterator[tuple[int, int, T]]:
        """Every place where one stands, in order of start: (start, end, meaning), end exclusive."""
        words = tuple(words)
        for start, word in enumerate(words):
            for phrase, meaning in self._by_first.get(word, ()):
                end = start + len(phrase)
                if words[start:end] == phrase:
                    yield start, end, meaning


def longest(found: Iterable[tuple[int, int, T]]) -> list[tuple[int, int, T]]:
    """Of places that overlap the longest, of equally long ones the first; in order of start."""
    taken: set[int] = set()
    kept = []
    for place in sorted(found, key=lambda each: (each[0] - each[1], each[0])):
        if taken.isdisjoint(range(place[0], place[1])):
            taken.update(range(place[0], place[1]))
            kept.append(place)
    return sorted(kept, key=lambda each: each[0])
