"""Words that the captions got wrong: what they show sounds like a word of the trade, and the trade's word fits the neighbours better.

Three kinds are told apart. *Beside*: the neighbour is right and names its fellow (break pads -> brake pads). *Split*: several words stand for one,
or one for two (in pillar -> impeller). *Single*: one real word for another (petals -> pedals); these need the most proof. Each candidate has a cost,
how far apart the two sound for each phoneme, and an allowance, how far they may be apart in that place; what costs less than its allowance is found.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Final

from rapidfuzz.distance import Levenshtein

from witnessmark.language.misheard_lexicon import (
    Form,
    Lexicon,
    Term,
    everyday,
    less_one,
    lexicon_of,
    meaningful,
    numbers_of,
    one_spelling,
    singular,
    stem,
)
from witnessmark.language.sounds import commonness, nearest, pronounce_all, skeleton

__all__ = ["Misheard", "Term", "find_misheard"]

_LONGEST_SPAN: Final = 4
_NEAR: Final = 8
"""How many words to either side count as company."""


@dataclass(frozen=True, slots=True)
class Misheard:
    """One doubtful place. start, end: tokens, end exclusive. heard: what the captions show there. meant: the trade's words. cost: distance a phoneme."""

    start: int
    end: int
    heard: str
    meant: str
    kind: str
    cost: float
    why: str


@dataclass(frozen=True, slots=True)
class _Candidate:
    found: Misheard
    margin: float


@lru_cache(maxsize=50_000)
def _reading(words: tuple[str, ...]) -> tuple[str, ...]:
    return pronounce_all(words)


@lru_cache(maxsize=100_000)
def _cost(heard: tuple[str, ...], meant: tuple[str, ...]) -> float:
    """Distance a phoneme of two runs of words; 1.0 where they are plainly far apart."""
    a, b = _reading(heard), _reading(meant)
    if not a or not b or Levenshtein.distance(a[0], b[0], score_cutoff=(limit := max(2, (len(b[0]) + 1) // 2))) > limit:
        return 1.0
    return nearest(a, b)


class _Text:
    """The recording's words with what is asked of every place."""

    def __init__(self, words: Sequence[str], lexicon: Lexicon) -> None:
        self.words = tuple(words)
        self.lexicon = lexicon
        self.lists = everyday()

    def at(self, index: int) -> str:
        return self.words[index] if 0 <= index < len(self.words) else ""

    @cached_property
    def said(self) -> frozenset[str]:
        """Every word of the recording, in the singular."""
        return frozenset(map(singular, self.words))

    @cached_property
    def right(self) -> frozenset[int]:
        """Places of words that stand in a whole name of two words or more, or in an everyday phrase: no doubt about those."""
        places: set[int] = set()
        for start in range(len(self.words)):
            for length in range(2, 6):
                run = self.words[start : start + length]
                if (
                    run in self.lists.phrases
                    or run in self.lexicon.names
                    or (*run[:-1], singular(run[-1])) in self.lexicon.names
                ):
                    places.update(range(start, start + length))
        return frozenset(places)

    def wordlike(self, start: int, end: int) -> bool:
        return 0 <= start < end <= len(self.words) and all(word.isalpha() for word in self.words[start:end])

    def verb_stands(self, start: int, end: int) -> bool:
        """Whether the words before or after make what stands here a verb."""
        return self.at(start - 1) in self.lists.verb_signs or self.at(end) in self.lists.objects

    def broken(self, start: int) -> bool:
        """Whether the grammar breaks here: a function word right behind an article, as in 'the in pillar'."""
        word = self.at(start)
        return (
            self.at(start - 1) in self.lists.articles
            and word in self.lists.function_words
            and word not in self.lists.modifiers
            and word
            not in (
                "one",
                "ones",
                "two",
                "three",
                "four",
                "five",
                "six",
                "half",
                "quarter",
                "other",
                "same",
                "own",
                "lot",
                "few",
                "way",
            )
        )

    def company(self, start: int, end: int, meant: Iterable[str]) -> tuple[str, float]:
        """The nearest word that the meant words keep company with, and how much it says: 1.0 beside them to 0.4 some words away."""
        keeps = set().union(*(self.lexicon.company.get(singular(word), ()) for word in meant))
        for gap in range(1, _NEAR + 1):
            for index in (start - gap, end + gap - 1):
                word = self.at(index)
                if word in keeps or singular(word) in keeps:
                    return word, 1.0 if gap == 1 else 0.6 if gap <= 3 else 0.4
        return "", 0.0


_RARITY: Final = {1: -0.07, 2: -0.03, 3: 0.0, 4: 0.02, 5: 0.03, 6: 0.03, 9: 0.03}


def _rarity(words: Sequence[str]) -> float:
    """What the rarest of the heard words adds to the allowance: a rare word is the likelier mistake."""
    return max(_RARITY[commonness(word)] for word in words)


def _same(heard: str, meant: str) -> bool:
    return heard == meant or one_spelling(singular(heard)) == one_spelling(singular(meant))


# ---- beside a right word ----------------------------------------------------------------------------------------------------------


def _beside(text: _Text) -> Iterator[_Candidate]:
    """Garbles next to a word that is right: every word of the text against the words that stand next to it in some name."""
    for place, word in enumerate(text.words):
        key = singular(word)
        for step, table in ((1, text.lexicon.after), (-1, text.lexicon.before)):
            fellows = table.get(key)
            if not fellows or any(
                _same(text.at(place + step), fellow) for fellow in numbers_in(fellows, text.at(place + step))
            ):
                continue
            for length in range(1, _LONGEST_SPAN):
                start = place + 1 if step > 0 else place - length
                if not text.wordlike(start, start + length):
                    break
                yield from _pairs(text, place, start, start + length, fellows)


def numbers_in(fellows: dict[str, float], word: str) -> Iterable[str]:
    """The fellows that are this word in one number or the other."""
    return [number for number in {word, *numbers_of(word)} if number in fellows] if word else ()


def _pairs(text: _Text, place: int, start: int, end: int, fellows: dict[str, float]) -> Iterator[_Candidate]:
    heard = text.words[start:end]
    if any(index in text.right for index in range(start, end)):
        return
    for fellow, weight in fellows.items():
        for meant in numbers_of(fellow) if start > place else (fellow,):
            cost = _cost_beside(text.words[place], heard, meant, start > place)
            if (
                cost < 0.32
                and not any(_same(word, meant) for word in heard)
                and not (weight < 1.0 and "".join(heard) == meant)
                and not _inflects(heard, meant, weight, start < place)
            ):
                allowance = _allowed_beside(text, place, start, end, meant, weight)
                if cost <= allowance:
                    yield _widened(text, place, start, end, meant, cost, allowance)


def _cost_beside(neighbour: str, heard: tuple[str, ...], meant: str, follows: bool) -> float:
    """As _cost; the sounds where two words meet may belong to either (gear royal, gear oil)."""
    cost = _cost(heard, (meant,))
    if 0.1 < cost < 0.45:
        joined = (
            _cost((neighbour, *heard), (neighbour, meant))
            if follows
            else _cost((*heard, neighbour), (meant, neighbour))
        )
        longer, fellow = len(_reading((neighbour, *heard))[0]), max(len(_reading(heard)[0]), len(_reading((meant,))[0]))
        return min(cost, joined * longer / fellow)
    return cost


def _inflects(heard: Sequence[str], meant: str, weight: float, leads: bool) -> bool:
    """Whether one word is the other with an ending (drained, drain): a mistake only where it leads a name of the recording's own table."""
    if len(heard) != 1 or stem(heard[0]) != stem(meant):
        return False
    return not (leads and weight >= 1.0 and heard[0].endswith("ed"))


def _allowed_beside(text: _Text, place: int, start: int, end: int, meant: str, weight: float) -> float:
    heard = text.words[start:end]
    allowance = 0.15 + 0.06 * weight + _rarity(heard)
    far = text.at(end) if start > place else text.at(place + 1)
    beyond = text.at(place - 1) if start > place else text.at(start - 1)
    if _extends(text.lexicon, meant, far) or _extends(text.lexicon, beyond, singular(text.at(place))):
        allowance += 0.05
    if end - start == 1:
        word = heard[0]
        if word in text.lists.units:
            return -1.0
        if word in text.lexicon.weights:
            allowance = min(allowance, 0.05)
        if start < place and (word in text.lists.modifiers or word in text.lists.function_words):
            allowance -= 0.02 if text.broken(start) else 0.25
        elif word in text.lists.function_words:
            allowance -= _function_word(text, place, start, end, meant, weight)
        elif start > place and word in text.lists.verbs:
            allowance -= 0.06
    else:
        allowance -= _several(text, start, end)
    if text.broken(start):
        allowance += 0.05
    return allowance


def _several(text: _Text, start: int, end: int) -> float:
    """What is taken off where several words would stand for one beside a right word."""
    heard = text.words[start:end]
    if not meaningful(heard) or not text.lists.units.isdisjoint(heard):
        return 1.0
    off = 0.03 * (end - start - 1)
    # a verb and an article before a noun are good English, unless an article stands before them too
    if heard[-1] in text.lists.determiners and text.at(start - 1) not in text.lists.determiners:
        off += 0.1
    return off


def _function_word(text: _Text, place: int, start: int, end: int, meant: str, weight: float) -> float:
    """What is taken off for a function word behind a right word: little where the name goes on behind it, or where it closes an expected name."""
    if start > place and _extends(text.lexicon, meant, text.at(end)) and text.at(end) not in text.lists.function_words:
        return 0.05
    closes = (
        weight >= 1.0
        and text.words[start] in text.lists.seldom_after_nouns
        and text.at(end) not in text.lists.determiners
    )
    return 0.03 if start > place and closes else 0.3


def _extends(lexicon: Lexicon, first: str, second: str) -> bool:
    return bool(first and second) and (singular(first), singular(second)) in lexicon.containing


def _widened(text: _Text, place: int, start: int, end: int, meant: str, cost: float, allowance: float) -> _Candidate:
    """The longest stretch of a name that stands here once the garble is read as meant."""
    words = [meant]
    first, last = start, end
    anchor_first = start > place
    pair = (
        (singular(text.words[place]), singular(meant))
        if anchor_first
        else (singular(meant), singular(text.words[place]))
    )
    best = (text.words[place], meant) if anchor_first else (meant, text.words[place])
    first, last = (place, end) if anchor_first else (start, place + 1)
    terms = text.lexicon.containing.get(pair, [])
    kind = terms[0].kind if terms else "word"
    for term in terms:
        words = term.name.split()
        for at in range(len(words) - 1):
            if (singular(words[at]), singular(words[at + 1])) != pair:
                continue
            back, ahead = 0, 0
            origin, close = (place, end) if anchor_first else (start, place + 1)
            while at - back - 1 >= 0 and _same(text.at(origin - back - 1), words[at - back - 1]):
                back += 1
            while at + 2 + ahead < len(words) and _same(text.at(close + ahead), words[at + 2 + ahead]):
                ahead += 1
            if back + ahead + 2 > len(best):
                core = (text.words[place], meant) if anchor_first else (meant, text.words[place])
                best = (*text.words[origin - back : origin], *core, *text.words[close : close + ahead])
                first, last, kind = origin - back, close + ahead, term.kind
    heard = " ".join(text.words[start:end])
    why = f'"{heard}" sounds like "{meant}", and "{" ".join(best)}" is {_known_as(allowance, terms)}.'
    return _Candidate(
        Misheard(first, last, " ".join(text.words[first:last]), " ".join(best), kind, round(cost, 3), why),
        allowance - cost + 0.1,
    )


def _known_as(allowance: float, terms: Sequence[Term]) -> str:
    return "a name in the recording's own table" if any(term.weight >= 1.0 for term in terms) else "a name of the trade"


# ---- split and single words -------------------------------------------------------------------------------------------------------


def _alone(text: _Text) -> Iterator[_Candidate]:
    """Garbles with no right word beside them: every run of words against the names that share its consonants."""
    for start in range(len(text.words)):
        for length in range(1, _LONGEST_SPAN + 1):
            end = start + length
            if not text.wordlike(start, end):
                break
            heard = text.words[start:end]
            if not meaningful(heard) or any(index in text.right for index in range(start, end)):
                continue
            for form in _alike(text.lexicon, heard):
                cost = _cost(heard, form.words)
                if cost < 0.25:
                    found = _judged(text, start, end, form, cost)
                    if found:
                        yield found


def _alike(lexicon: Lexicon, heard: tuple[str, ...]) -> list[Form]:
    """The forms whose skeleton is that of the heard words, or one consonant more or less; in longer ones one consonant may differ."""
    found: dict[tuple[str, ...], Form] = {}
    for bones in {skeleton(sounds) for sounds in _reading(heard)}:
        for form, _ in lexicon.index.get(bones, ()):
            found[form.words] = form
        for less in less_one(bones):
            for form, whole in lexicon.index.get(less, ()):
                if whole or len(bones) > 3:
                    found[form.words] = form
    return list(found.values())


def _judged(text: _Text, start: int, end: int, form: Form, cost: float) -> _Candidate | None:
    heard = text.words[start:end]
    if end - start == 1 and len(form.words) == 1:
        allowance = _allowed_single(text, start, form)
    else:
        allowance = _allowed_split(text, start, end, form)
    if cost > allowance:
        return None
    reason = _reason(text, start, end, form)
    why = f'"{" ".join(heard)}" sounds like "{form.name}", {reason}.'
    return _Candidate(
        Misheard(start, end, " ".join(heard), form.name, form.kind, round(cost, 3), why),
        allowance - cost + 0.02 * (end - start),
    )


def _reason(text: _Text, start: int, end: int, form: Form) -> str:
    near, _ = text.company(start, end, form.words)
    if form.weight >= 0.8:
        return "a word of the recording's own table"
    if all(singular(word) in text.said for word in form.words):
        return "which is said elsewhere in the recording"
    return f'a word of the trade that goes with "{near}"' if near else "a word of the trade"


def _allowed_single(text: _Text, start: int, form: Form) -> float:
    heard, meant = text.words[start], form.words[0]
    if heard in text.lexicon.weights or heard in text.lists.function_words or stem(heard) == stem(meant):
        return -1.0
    rarity = _RARITY[commonness(heard)]
    _, company = text.company(start, start + 1, form.words)
    expected = form.weight >= 0.8 or singular(meant) in text.said or company > 0
    before = text.at(start - 1)
    noun_stands = before in text.lists.determiners or before in text.lists.modifiers or before in text.lexicon.weights
    if not expected or text.verb_stands(start, start + 1) or heard in text.lists.modifiers or heard in text.lists.units:
        return -1.0
    if commonness(heard) == 1 and not (noun_stands and heard not in text.lists.verbs):
        return -1.0
    allowance = 0.04 + 0.05 * form.weight + 0.05 * company + rarity
    if singular(meant) in text.said:
        allowance += 0.02
    if noun_stands:
        allowance += 0.02
    return allowance


def _allowed_split(text: _Text, start: int, end: int, form: Form) -> float:
    heard = text.words[start:end]
    if all(word in text.lexicon.weights or word in text.lists.function_words for word in heard) and form.weight < 0.8:
        return -1.0
    if "".join(heard) == "".join(form.words) and form.weight < 0.8:
        return -1.0
    if text.at(start - 1) in text.lists.verb_signs and commonness(heard[0]) <= 2:
        return -1.0
    if any(
        _same(word, part) or (len(heard) == 1 and stem(word) == stem(part)) for word in heard for part in form.words
    ):
        return -1.0
    if not text.lists.units.isdisjoint(heard):
        return -1.0
    if len(heard) == 1 and commonness(heard[0]) < 4 and not text.broken(start):
        return -1.0
    _, company = text.company(start, end, form.words)
    allowance = 0.06 + 0.05 * form.weight + 0.03 * company + _rarity(heard)
    if text.broken(start):
        allowance += 0.05
    if len(form.sounds[0]) < 5:
        allowance -= 0.06
    if heard[-1] in text.lists.function_words or (heard[0] in text.lists.function_words and not text.broken(start)):
        allowance -= 0.04
    return allowance


# ---- the finder -------------------------------------------------------------------------------------------------------------------


def find_misheard(words: Sequence[str], terms: Sequence[Term]) -> tuple[Misheard, ...]:
    """The places where the captions' words stand for a trade's words that they sound like, in order; no two overlap.

    words: the captions' tokens, lower case, hyphens already spaces, contractions split (that, 's); punctuation may stand among them.
    terms: every name that may be said; a name may come more than once, and the greatest weight counts.
    """
    text = _Text(words, lexicon_of(tuple(terms)))
    candidates = sorted(
        (*_beside(text), *_alone(text)), key=lambda c: (-c.margin, c.found.start, c.found.end, c.found.meant)
    )
    taken: set[int] = set()
    chosen = []
    for candidate in candidates:
        places = range(candidate.found.start, candidate.found.end)
        if taken.isdisjoint(places):
            taken.update(places)
            chosen.append(candidate.found)
    return tuple(sorted(chosen, key=lambda found: found.start))
