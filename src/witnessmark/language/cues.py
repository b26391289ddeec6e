"""Where in a recording the words stand that tell how something is meant (data/cues.toml)."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from witnessmark.data import read_toml
from witnessmark.language.phrases import Phrases
from witnessmark.language.vocabulary import tokens_of


@cache
def _phrases(file: str, section: str) -> Phrases[str]:
    """Every phrase of one section of a data file, with its group."""
    groups: dict[str, list[str]] = read_toml(file)[section]
    return Phrases((_tokens(form), group) for group, forms in groups.items() for form in forms)


def _tokens(form: str) -> tuple[str, ...]:
    return tuple(form.split()) if form in (",", "+", "(") else tokens_of(form)


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
    spans: dict[str, list[tuple[int, int]]] = {}
    for start, end, group in _phrases(file, section).said(texts):
        spans.setdefault(group, []).append((start, end))
    return Cues({group: tuple(found) for group, found in spans.items()})
