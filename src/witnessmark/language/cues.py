"""Where in a recording the words stand that tell how something is meant (data/cues.toml)."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from witnessmark.data import read_toml
from witnessmark.language.vocabulary import tokens_of

_Phrases = dict[str, list[tuple[tuple[str, ...], str]]]


@cache
def _phrases(file: str, section: str) -> _Phrases:
    """Every phrase of one section of a data file by its first word: (tokens, group)."""
    groups: dict[str, list[str]] = read_toml(file)[section]
    by_first: _Phrases = {}
    for group, forms in groups.items():
        for form in forms:
            tokens = tuple(form.split()) if form in (",", "+", "(") else tokens_of(form)
            by_first.setdefault(tokens[0], []).append((tokens, group))
    return by_first


@dataclass(frozen=True)
class Cues:
    """Occurrences of every group: (start, end) token spans in order of start."""

    spans: dict[str, tuple[tuple[int, int], ...]]

    def between(self, group: str, start: int, end: int) -> tuple[tuple[int, int], ...]:
        """The group's occurrences that lie wholly in tokens start..end (exclusive)."""
        spans = self.spans.get(group, ())
        found = spans[bisect_left(spans, (start, 0)) : bisect_left(spans, (end, 0))]
        return tuple(span for span in found if span[1] <= end)

    def has(self, group: str, start: int, end: int) -> bool:
        """Whether the group is said in tokens start..end (exclusive)."""
        return bool(self.between(group, start, end))


def find_cues(texts: Sequence[str], section: str = "groups", file: str = "cues.toml") -> Cues:
    """All cue phrases of one section of a file under data/ in a recording's tokens."""
    phrases = _phrases(file, section)
    spans: dict[str, list[tuple[int, int]]] = {}
    for i, text in enumerate(texts):
        for tokens, group in phrases.get(text, ()):
            if tuple(texts[i : i + len(tokens)]) == tokens:
                spans.setdefault(group, []).append((i, i + len(tokens)))
    return Cues({group: tuple(found) for group, found in spans.items()})
