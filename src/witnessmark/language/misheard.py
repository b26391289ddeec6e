"""Words that the captions got wrong: they sound like a word of the trade, and that fits the neighbours better.

Three kinds are told apart. *Beside*: the neighbour is right and names its fellow (break pads -> brake pads). *Split*:
several words stand for one, or one for two (in pillar -> impeller). *Single*: one real word for another (petals ->
pedals); these need the most proof. Each candidate has a cost, how far apart the two sound for each phoneme, and an
allowance, how far they may be apart in that place; what costs no more than its allowance is found. The allowances were
set on annotated recordings and invented sentences: common practice.
"""

from collections.abc import Sequence

from witnessmark.language.misheard_alone import alone
from witnessmark.language.misheard_beside import beside
from witnessmark.language.misheard_lexicon import Term, lexicon_of
from witnessmark.language.misheard_model import Candidate, Misheard
from witnessmark.language.misheard_text import Text

__all__ = ["Misheard", "Term", "find_misheard"]


def find_misheard(words: Sequence[str], terms: Sequence[Term]) -> tuple[Misheard, ...]:
    """The places where the captions' words stand for a trade's words, in order; no two overlap.

    words: the captions' tokens, lower case, hyphens already spaces, contractions split (that, 's); punctuation may
    stand among them. terms: every name that may be said; one may come more than once, and its greatest weight counts.
    """
    text = Text(words, lexicon_of(tuple(terms)))
    taken: set[int] = set()
    chosen = []
    for candidate in sorted((*beside(text), *alone(text)), key=_best_first):
        places = range(candidate.found.start, candidate.found.end)
        if taken.isdisjoint(places):
            taken.update(places)
            chosen.append(candidate.found)
    return tuple(sorted(chosen, key=lambda found: found.start))


def _best_first(candidate: Candidate) -> tuple[float, int, int, str, str]:
    found = candidate.found
    return -candidate.margin, found.start, found.end, found.meant, found.kind
