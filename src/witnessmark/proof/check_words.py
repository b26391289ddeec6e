"""Where in a recording the words stand that the checks ask for (data/check_words.toml)."""

from collections.abc import Sequence

from witnessmark.language.cues import Cues, find_cues
from witnessmark.language.speech import Speech, breaks_after


def find_words(texts: Sequence[str], section: str) -> Cues:
    """All phrases of one section of data/check_words.toml in a recording's tokens."""
    return find_cues(texts, section, "check_words.toml")


def clause(speech: Speech, start: int, end: int, before: int, after: int) -> tuple[int, int]:
    """Tokens around start..end (exclusive), at most so many before and after, not past a full stop or long silence."""
    low, high = start, end
    while low > 0 and start - low < before and not breaks_after(speech, low - 1):
        low -= 1
    while high < len(speech.tokens) and high - end < after and not breaks_after(speech, high - 1):
        high += 1
    return low, high
