"""What is asked of the words around a place that may be misheard."""

from collections.abc import Iterable, Sequence
from functools import cached_property, lru_cache
from typing import Final

from witnessmark.language.misheard_lexicon import EXPECTED, Lexicon, everyday, meaningful, singular
from witnessmark.language.sounds import commonness, pronounce_all

LONGEST: Final = 3
"""The most words that one garble may spread over."""
_LONGEST_WORD: Final = 24
"""Longer runs of letters are no word; passing them over keeps the time linear."""
_NEAR: Final = 8
"""How many words to either side count as company."""
_RARITY: Final = {1: -0.07, 2: -0.03, 3: 0.0, 4: 0.02, 5: 0.03, 6: 0.03, 9: -0.04, 10: 0.04}
"""What a heard word of each commonness adds to its allowance: a rare word is the likelier mistake, a name is not."""
_COUNTS: Final = frozenset("one ones two three four five six seven eight nine ten half quarter".split())  # noqa: SIM905

_NO_SUBJECTS: Final = frozenset(["'s", "of", "in", "on", "with", "for", "from", "at"])


@lru_cache(maxsize=50_000)
def reading(words: tuple[str, ...]) -> tuple[str, ...]:
    """The sounds of a run of words, kept."""
    return pronounce_all(words)


def rarity(words: Iterable[str]) -> float:
    """What the rarest of the heard words adds to the allowance."""
    return max(_RARITY[commonness(word)] for word in words)


class Text:
    """A recording's words, and the questions that can be asked of any place among them."""

    def __init__(self, words: Sequence[str], lexicon: Lexicon) -> None:
        self.words = tuple(words)
        self.lexicon = lexicon
        self.lists = everyday()
        self._plain = tuple(word.isascii() and word.isalpha() and len(word) <= _LONGEST_WORD for word in self.words)

    def at(self, index: int) -> str:
        """The word there; empty before the first and after the last."""
        return self.words[index] if 0 <= index < len(self.words) else ""

    @cached_property
    def said(self) -> frozenset[str]:
        """Every word of the recording, in the singular."""
        return frozenset(map(singular, self.words))

    @cached_property
    def settled(self) -> frozenset[int]:
        """Places of words in a whole name of two words or more, or in an everyday phrase: no doubt about those."""
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
        """Whether it holds plain words only, one more than a function word, and none that is settled or a measure."""
        if not (start >= 0 and end <= len(self.words) and all(self._plain[start:end])):
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

    def expects(self, word: str) -> bool:
        """Whether the recording's own table or the recording itself has the word."""
        return self.lexicon.weights.get(word, 0.0) >= EXPECTED or singular(word) in self.said

    def broken(self, start: int) -> bool:
        """Whether the grammar breaks here: a function word right behind an article, as in 'the in pillar', or a verb
        with nothing before it to do it, as in 'of will cylinder'."""
        word, lists = self.at(start), self.lists
        odd = (
            word in lists.function_words
            and word not in lists.modifiers
            and word not in _COUNTS
            and word not in ("own", "few", "lot", "way", "right")
        )
        before = self.at(start - 1)
        return odd and (before in lists.articles or (word in lists.tensed and before in _NO_SUBJECTS))

    def company(self, start: int, end: int, meant: Iterable[str]) -> tuple[str, float]:
        """The nearest word that the meant words keep company with, and how much it says.

        1.0 beside them, 0.6 near, 0.4 some words away; nothing and 0.0 where there is none.
        """
        keeps: set[str] = set().union(*(self.lexicon.company(singular(word)) for word in meant))
        if not keeps:
            return "", 0.0
        for gap in range(1, _NEAR + 1):
            for index in (start - gap, end + gap - 1):
                word = self.at(index)
                if word in keeps or singular(word) in keeps:
                    return word, 1.0 if gap == 1 else 0.6 if gap <= 3 else 0.4
        return "", 0.0

    def at_home(self, start: int, end: int) -> bool:
        """Whether a heard word is of the trade itself and among its own company, or is expected as it is."""
        for index in range(start, end):
            weight = self.lexicon.weights.get(self.words[index], 0.0)
            if weight >= EXPECTED or (weight and self.company(index, index + 1, (self.words[index],))[1]):
                return True
        return False
