"""What is asked of the words around a place that may be misheard."""

from collections.abc import Iterable, Sequence
from functools import cached_property, lru_cache
from typing import Final

from rapidfuzz.distance import Levenshtein

from witnessmark.language.misheard_lexicon import EXPECTED, Lexicon, everyday, meaningful, singular
from witnessmark.language.sounds import commonness, nearest, pronounce_all

_NEAR: Final = 8
"""How many words to either side count as company."""
_RARITY: Final = {1: -0.07, 2: -0.03, 3: 0.0, 4: 0.02, 5: 0.03, 6: 0.03, 9: 0.04}
"""What a heard word of each commonness adds to its allowance: a rare word is the likelier mistake."""
_COUNTS: Final = frozenset("one ones two three four five six seven eight nine ten half quarter".split())


@lru_cache(maxsize=50_000)
def reading(words: tuple[str, ...]) -> tuple[str, ...]:
    """The sounds of a run of words, kept."""
    return pronounce_all(words)


def cost(heard: Sequence[str], meant: Sequence[str], limit: float) -> float:
    """Distance a phoneme of two lists of sounds; 1.0 where they are further apart than limit."""
    if not heard or not meant:
        return 1.0
    edits = most_edits(max(len(heard[0]), len(meant[0]))) + 1
    return nearest(heard, meant, limit) if Levenshtein.distance(heard[0], meant[0], score_cutoff=edits) <= edits else 1.0


def most_edits(length: int) -> int:
    """How many of so many phonemes may differ at most in a mishearing; what few edits cost is for the distance to say."""
    return max(1, length // 2)


def rarity(words: Iterable[str]) -> float:
    """What the rarest of the heard words adds to the allowance."""
    return max(_RARITY[commonness(word)] for word in words)


class Text:
    """A recording's words, and the questions that can be asked of any place among them."""

    def __init__(self, words: Sequence[str], lexicon: Lexicon) -> None:
        self.words = tuple(words)
        self.lexicon = lexicon
        self.lists = everyday()
        self._plain = tuple(word.isalpha() for word in self.words)

    def at(self, index: int) -> str:
        """The word there; empty before the first and after the last."""
        return self.words[index] if 0 <= index < len(self.words) else ""

    @cached_property
    def said(self) -> frozenset[str]:
        """Every word of the recording, in the singular."""
        return frozenset(map(singular, self.words))

    @cached_property
    def settled(self) -> frozenset[int]:
        """Places of words that stand in a whole name of two words or more, or in an everyday phrase: no doubt about those."""
        places: set[int] = set()
        for start, word in enumerate(self.words):
            if word not in self._openings:
                continue
            for length in range(2, 7):
                run = self.words[start : start + length]
                if self._is_name(run) or run in self.lists.phrases:
                    places.update(range(start, start + length))
        return frozenset(places)

    @cached_property
    def _openings(self) -> frozenset[str]:
        return frozenset(run[0] for run in (*self.lexicon.names, *self.lists.phrases))

    def _is_name(self, run: tuple[str, ...]) -> bool:
        if run not in self.lexicon.names and (*run[:-1], singular(run[-1])) not in self.lexicon.names:
            return False
        # the recording's own spelling (chainstay) goes before that of the trade at large (chain stay)
        return self.lexicon.weights.get("".join(run), 0.0) < EXPECTED

    def open_run(self, start: int, end: int) -> bool:
        """Whether start to end holds plain words only, one of them more than a function word, and none that is settled or a measure."""
        if not (0 <= start and end <= len(self.words) and all(self._plain[start:end])):
            return False
        run = self.words[start:end]
        return meaningful(run) and self.settled.isdisjoint(range(start, end)) and self.lists.units.isdisjoint(run)

    def doubtful(self, index: int) -> bool:
        """Whether the place holds a lone function word that may yet be wrong."""
        return self.plain(index) and index not in self.settled and self.words[index] in self.lists.function_words

    def plain(self, index: int) -> bool:
        """Whether the place holds a word, not a figure or a sign."""
        return 0 <= index < len(self.words) and self._plain[index]

    def verb_stands(self, start: int, end: int) -> bool:
        """Whether the words before or after make what stands here a verb."""
        return self.at(start - 1) in self.lists.verb_signs or self.at(end) in self.lists.objects

    def noun_stands(self, start: int) -> bool:
        """Whether the word before lets a noun of the trade follow."""
        before = self.at(start - 1)
        return before in self.lists.determiners or before in self.lists.modifiers or before in self.lexicon.weights

    def broken(self, start: int) -> bool:
        """Whether the grammar breaks here: a function word right behind an article, as in 'the in pillar'."""
        word, lists = self.at(start), self.lists
        odd = word in lists.function_words and word not in lists.modifiers and word not in _COUNTS and word not in ("own", "few", "lot", "way", "right")
        return odd and self.at(start - 1) in lists.articles

    def company(self, start: int, end: int, meant: Iterable[str]) -> tuple[str, float]:
        """The nearest word that the meant words keep company with, and how much it says: 1.0 beside them, 0.6 near, 0.4 some words away, else 0.0."""
        keeps: set[str] = set().union(*(self.lexicon.company.get(singular(word), ()) for word in meant))
        if not keeps:
            return "", 0.0
        for gap in range(1, _NEAR + 1):
            for index in (start - gap, end + gap - 1):
                word = self.at(index)
                if word in keeps or singular(word) in keeps:
                    return word, 1.0 if gap == 1 else 0.6 if gap <= 3 else 0.4
        return "", 0.0

    def at_home(self, start: int, end: int) -> bool:
        """Whether a heard word is itself a word of the trade and stands among its own company, or is expected as it is."""
        for index in range(start, end):
            weight = self.lexicon.weights.get(self.words[index], 0.0)
            if weight >= EXPECTED or (weight and self.company(index, index + 1, (self.words[index],))[1]):
                return True
        return False
