"""Speech cut into utterances:
by full stops where the captions have them, else by pauses, by the words people begin with, and by length.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from witnessmark.data import read_toml
from witnessmark.language.speech import LONG_PAUSE, SHORT_PAUSE, Speech
from witnessmark.language.tokens import SENTENCE_END
from witnessmark.language.vocabulary import tokens_of

WORDS_PER_STOP = 40  # captions with fewer full stops than one in so many words are unpunctuated
LONGEST = 45  # tokens; a longer stretch is cut at its openers even where no pause tells
SHORTEST = 5  # tokens; an opener that comes sooner begins nothing new


@dataclass(frozen=True, slots=True)
class Utterance:
    """Tokens start..end (exclusive) said in one go. parted: how surely it begins something new, from 0 to 1."""

    start: int
    end: int
    parted: float


@cache
def _openers() -> dict[str, tuple[tuple[tuple[str, ...], float], ...]]:
    """Every opener by its first word: (tokens, strength), longest first."""
    table: dict[str, list[str]] = read_toml("procedure/openers.toml")
    found: dict[str, list[tuple[tuple[str, ...], float]]] = {}
    for name, strength in (("strong", 0.4), ("weak", 0.25)):
        for form in table[name]:
            tokens = tokens_of(form)
            found.setdefault(tokens[0], []).append((tokens, strength))
    return {first: tuple(sorted(rows, key=lambda row: -len(row[0]))) for first, rows in found.items()}


def opener_at(texts: tuple[str, ...], index: int) -> tuple[int, float]:
    """The opener said from a token on: (number of tokens, strength), or (0, 0.0)."""
    for tokens, strength in _openers().get(texts[index], ()):
        if texts[index : index + len(tokens)] == tokens:
            return len(tokens), strength
    return 0, 0.0


def is_punctuated(speech: Speech) -> bool:
    """Whether the captions have full stops of their own."""
    stops = sum(text in SENTENCE_END for text in speech.texts)
    return stops * WORDS_PER_STOP >= len(speech.texts)


def is_coarse(speech: Speech) -> bool:
    """Whether the captions time whole lines or blocks to the second, so that their gaps tell nothing of pauses."""
    return speech.transcript.format.startswith(("stamped", "bracketed"))


def find_utterances(speech: Speech) -> tuple[Utterance, ...]:
    """All utterances in order; together they hold every token."""
    cuts = dict(_sentence_cuts(speech)) if is_punctuated(speech) else dict(_flow_cuts(speech))
    starts = [0, *sorted(cut for cut in cuts if 0 < cut < len(speech.tokens))]
    ends = [*starts[1:], len(speech.tokens)]
    return tuple(Utterance(a, b, cuts.get(a, 1.0)) for a, b in zip(starts, ends, strict=True) if a < b)


def _sentence_cuts(speech: Speech) -> Iterator[tuple[int, float]]:
    """After every full stop; a pause or an opener there parts more."""
    for i, text in enumerate(speech.texts[:-1]):
        if text in SENTENCE_END:
            pause = speech.pauses[i]
            opener = opener_at(speech.texts, i + 1)[1]
            yield (
                i + 1,
                min(1.0, 0.35 + opener * 0.6 + (0.35 if pause >= LONG_PAUSE else 0.1 if pause >= SHORT_PAUSE else 0.0)),
            )


def _flow_cuts(speech: Speech) -> Iterator[tuple[int, float]]:
    """After every pause, and before an opener where the stretch since the last cut is long enough."""
    told = not is_coarse(speech) and any(pause >= SHORT_PAUSE for pause in speech.pauses)
    last = 0
    for i in range(1, len(speech.tokens)):
        pause = speech.pauses[i - 1]
        if told and pause >= SHORT_PAUSE:
            yield i, 1.0 if pause >= LONG_PAUSE else 0.7
            last = i
            continue
        size, strength = opener_at(speech.texts, i)
        enough = SHORTEST if strength >= 0.4 else SHORTEST * 2
        if size and i - last >= (enough if not told else enough * 2 if i - last < LONGEST else 2):
            yield i, strength * (0.8 if told else 1.3)
            last = i
