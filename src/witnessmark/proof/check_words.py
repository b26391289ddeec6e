"""Where in a recording the words stand that the checks ask for (data/check_words.toml)."""

import tomllib
from collections.abc import Sequence
from functools import cache

from witnessmark.data import read_text
from witnessmark.language.cues import Cues
from witnessmark.language.speech import Speech, breaks_after
from witnessmark.language.vocabulary import tokens_of

_Phrases = dict[str, tuple[tuple[tuple[str, ...], str], ...]]


@cache
def _phrases(section: str) -> _Phrases:
    """Every phrase of one section by its first word: (tokens, group)."""
    groups: dict[str, list[str]] = tomllib.loads(read_text("check_words.toml"))[section]
    by_first: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for group, forms in groups.items():
        for form in forms:
            tokens = tokens_of(form)
            by_first.setdefault(tokens[0], []).append((tokens, group))
    return {first: tuple(rows) for first, rows in by_first.items()}


def find_words(texts: Sequence[str], section: str) -> Cues:
    """All phrases of one section of data/check_words.toml in a recording's tokens."""
    phrases = _phrases(section)
    spans: dict[str, list[tuple[int, int]]] = {}
    for i, text in enumerate(texts):
        for tokens, group in phrases.get(text, ()):
            if tuple(texts[i : i + len(tokens)]) == tokens:
                spans.setdefault(group, []).append((i, i + len(tokens)))
    return Cues({group: tuple(found) for group, found in spans.items()})


def clause(speech: Speech, start: int, end: int, before: int, after: int) -> tuple[int, int]:
    """Tokens around start..end (exclusive), at most so many before and after, not past a full stop or long silence."""
    low, high = start, end
    while low > 0 and start - low < before and not breaks_after(speech, low - 1):
        low -= 1
    while high < len(speech.tokens) and high - end < after and not breaks_after(speech, high - 1):
        high += 1
    return low, high
