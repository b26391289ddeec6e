"""The terms that a recording may hold, laid out for finding the words that sound like them."""

import re
from collections import defaultdict
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import chain, pairwise
from typing import Final, Generic, NamedTuple, TypeVar

from witnessmark.data import read_text, read_toml
from witnessmark.language.sounds import NAME, commonness, pronounce_all, skeleton

_T = TypeVar("_T", bound=Hashable)

OWN: Final = 1.0
"""The weight of a name that stands in the recording's own table or glossary."""
EXPECTED: Final = 0.8
"""The weight of a word that only stands inside such a name: the least of what a recording is expected to say."""
TRADE: Final = 0.4
"""The weight of a name of the trade at large."""
_WHOLE_SOUNDS: Final = 9
"""Two-word names of the trade with no more phonemes are looked for whole; in longer ones a word is found alone."""
_SPELLINGS: Final = tuple(
    (re.compile(pattern), put)
    for pattern, put in (
        ("tre$", "ter"), ("our", "or"), ("is(e|ed|er|ing)$", r"iz\1"), ("^tyr", "tir"), ("ll", "l"), ("isk$", "isc"),
        ("^gage", "gauge"), ("grey", "gray"), ("mould", "mold"), ("plough", "plow"), ("aluminium", "aluminum"),
        ("ence$", "ense"), ("sulph", "sulf"), ("^vice", "vise"), ("^kerb", "curb"), ("^plyer", "plier"),
    )
)  # fmt: skip


class Term(NamedTuple):
    """A name that may be said.

    name: as spoken, lower case, spaces only. kind: tool, part, fastener, supply, item or word. weight: OWN for the
    recording's own table and glossary, TRADE for the general vocabulary.
    """

    name: str
    kind: str
    weight: float = TRADE


class Form(NamedTuple):
    """A term, or one word of it, as it may sound. kind: that of the heaviest term it comes from."""

    words: tuple[str, ...]
    kind: str
    weight: float
    sounds: tuple[str, ...]

    @property
    def name(self) -> str:
        """The words with spaces between."""
        return " ".join(self.words)


# ---- ordinary English ----------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Everyday:
    """The lists of everyday.toml."""

    articles: frozenset[str]
    determiners: frozenset[str]
    verb_signs: frozenset[str]
    objects: frozenset[str]
    function_words: frozenset[str]
    modifiers: frozenset[str]
    units: frozenset[str]
    verbs: frozenset[str]
    seldom_after_nouns: frozenset[str]
    tensed: frozenset[str]
    plain_nouns: frozenset[str]
    phrases: frozenset[tuple[str, ...]]
    company: dict[str, frozenset[str]]


@lru_cache(maxsize=1)
def everyday() -> Everyday:
    """The words of ordinary English that decide where a trade word cannot stand."""
    data = read_toml("pronunciation/everyday.toml")
    company = {word: frozenset(near) for word, near in data["company"].items()}
    phrases = frozenset(tuple(phrase.split()) for phrase in data["phrases"])
    words = {name: frozenset(words) for name, words in data.items() if name not in ("company", "phrases")}
    return Everyday(**words, phrases=phrases, company=company)


@lru_cache(maxsize=20_000)
def is_ordinary(word: str) -> bool:
    """Whether the word says nothing of the trade: a function word, a modifier of any noun, a unit, a figure."""
    lists = everyday()
    return word in lists.function_words or word in lists.modifiers or word in lists.units or not word.isalpha()


def meaningful(words: Sequence[str]) -> bool:
    """Whether any of the words is more than a function word."""
    return any(word not in everyday().function_words for word in words)


@lru_cache(maxsize=20_000)
def singular(word: str) -> str:
    """The word without a plural ending, by spelling alone; a word that has none comes back as it is."""
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-2] if word.endswith(("ches", "shes", "xes", "sses")) else word[:-1]


@lru_cache(maxsize=20_000)
def numbers_of(word: str) -> tuple[str, str]:
    """The word as it is, and in its other number by the regular spelling."""
    one = singular(word)
    if one != word:
        return word, one
    if word.endswith(("ch", "sh", "x", "ss")):
        return word, word + "es"
    return word, (word[:-1] + "ies" if word.endswith("y") and word[-2:-1] not in tuple("aeiou") else word + "s")


@lru_cache(maxsize=20_000)
def stem(word: str) -> str:
    """What stays of a word without un- and its grammatical endings, by spelling alone: drain of drained and drainer."""
    word = word.removeprefix("un") if len(word) > 5 else word
    for ending in ("ings", "ing", "ers", "er", "ors", "or", "ed", "es", "s", "ly", "e"):
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            word = word[: -len(ending)]
            break
    return word[:-1] if len(word) > 3 and word[-1] == word[-2] else word.removesuffix("e")


@lru_cache(maxsize=20_000)
def one_spelling(word: str) -> str:
    """The singular with the spellings of both sides of the Atlantic made one: metre and meter, tyre and tire."""
    word = singular(word)
    for pattern, put in _SPELLINGS:
        word = pattern.sub(put, word)
    return word


@lru_cache(maxsize=20_000)
def with_its_g(word: str) -> str:
    """The word with the g that dialect drops, where that makes a known one: bearing of bearin; else as it is."""
    whole = word + "g"
    dropped = len(word) > 5 and word.endswith("in") and commonness(word) > 5 and commonness(whole) < NAME
    return whole if dropped else word


def same_word(heard: str, meant: str) -> bool:
    """Whether two words differ in number or spelling alone."""
    return heard == meant or one_spelling(heard) == one_spelling(meant)


# ---- the lexicon ---------------------------------------------------------------------------------------------------


@lru_cache(maxsize=50_000)
def less_one(bones: str) -> frozenset[str]:
    """Every skeleton with one consonant of bones left out; that of a skeleton of one is empty."""
    return frozenset([bones[:at] + bones[at + 1 :] for at in range(len(bones))])


class SkeletonIndex(Generic[_T]):
    """Values by the skeleton of their sounds, found again by a skeleton that has one consonant more, less or other."""

    def __init__(self) -> None:
        self._whole: dict[str, list[_T]] = {}
        self._less: dict[str, list[str]] = defaultdict(list)

    def add(self, skeletons: Iterable[str], value: _T) -> None:
        """Put value under the skeleton of every way that it sounds."""
        for bones in skeletons:
            if bones not in self._whole:
                self._whole[bones] = []
                for less in less_one(bones):
                    self._less[less].append(bones)
            self._whole[bones].append(value)

    def near(self, sounds: Iterable[str], swap_from: int) -> set[_T]:
        """The values that may sound like sounds.

        swap_from: the fewest consonants among which one may be another; with one fewer, one may be missing or added.
        """
        near: set[str] = set()
        for bones in {skeleton(reading) for reading in sounds}:
            near.add(bones)
            if len(bones) >= swap_from - 1:
                near.update(self._less.get(bones, ()))
                near.update(less_one(bones))
            if len(bones) >= swap_from:
                near.update(*[self._less[less] for less in less_one(bones) if less in self._less])
        return set().union(*[self._whole[bones] for bones in near if bones in self._whole])


Place = tuple[tuple[str, ...], int, Term]
"""Where in a term two neighbours stand: its words, the index of the first of the two, the term."""


class Lexicon:
    """What find_misheard looks in.

    names: all terms by their words. weights: every word of a term, in both numbers -> how strongly it is expected.
    forms: sounds -> the words, and the shorter two-word names, that sound so; index: those sounds by skeleton.
    """

    def __init__(self, names: dict[tuple[str, ...], Term]) -> None:
        self.names = names
        self.weights: dict[str, float] = {}
        self.forms: dict[str, list[Form]] = {}
        self.index: SkeletonIndex[str] = SkeletonIndex()
        self._after: dict[str, dict[str, list[Place]]] = defaultdict(dict)
        self._before: dict[str, set[str]] = defaultdict(set)
        self._together: dict[str, list[tuple[str, ...]]] = defaultdict(list)
        self._fellows: dict[tuple[str, int], SkeletonIndex[tuple[str, str, float]] | None] = {}
        self._company: dict[str, frozenset[str]] = {}

    def fellows(self, word: str, step: int) -> SkeletonIndex[tuple[str, str, float]] | None:
        """The words that stand one step (1 or -1) from word (singular) in some term, None where none does.

        Each as said, which is either number where they follow word, as named, and with the pair's weight.
        """
        if (word, step) not in self._fellows:
            after = self._after.get(word, {}).values()
            before = (self._after[first][word] for first in self._before.get(word, ()))
            self._fellows[word, step] = _fellows(chain.from_iterable(after if step > 0 else before), step)
        return self._fellows[word, step]

    def places(self, first: str, second: str) -> Sequence[Place]:
        """Where the two (singular) stand side by side in terms."""
        return self._after[first].get(second, ()) if first in self._after else ()

    def company(self, word: str) -> frozenset[str]:
        """What stands anywhere in a term with word (singular), or keeps company with it in everyday English."""
        if word not in self._company:
            everyday_company = everyday().company.get(word, ())
            self._company[word] = frozenset(chain(everyday_company, *self._together.get(word, ())))
        return self._company[word]

    def add_words(self, words: tuple[str, ...], telling: tuple[str, ...], term: Term) -> None:
        """Let the words of a term be found beside each other, and those that are telling in each other's company."""
        function_words = everyday().function_words
        for at, (first, second) in enumerate(pairwise(words)):
            if first not in function_words and second not in function_words:
                one, other = singular(first), singular(second)
                self._after[one].setdefault(other, []).append((words, at, term))
                self._before[other].add(one)
        if len(telling) > 1:
            for word in telling:
                self._together[singular(word)].append(telling)

    def add_form(self, words: tuple[str, ...], kind: str, weight: float) -> None:
        """Let words be found by their sounds."""
        sounds, skeletons = _sounds_of(words)
        if sounds and (len(words) == 1 or weight >= OWN or len(sounds[0]) <= _WHOLE_SOUNDS):
            form = Form(words, kind, weight, sounds)
            for reading, bones in zip(sounds, skeletons, strict=True):
                if reading not in self.forms:
                    self.forms[reading] = []
                    self.index.add((bones,), reading)
                self.forms[reading].append(form)


def _fellows(places: Iterable[Place], step: int) -> SkeletonIndex[tuple[str, str, float]] | None:
    weights: dict[str, float] = {}
    for words, at, term in places:
        fellow = words[at + 1 if step > 0 else at]
        weights[fellow] = max(weights.get(fellow, 0.0), term.weight)
    if not weights:
        return None
    index: SkeletonIndex[tuple[str, str, float]] = SkeletonIndex()
    for fellow, weight in weights.items():
        for number in numbers_of(fellow) if step > 0 else (fellow,):
            index.add(set(_sounds_of((number,))[1]), (number, fellow, weight))
    return index


@cache
def _known_sounds() -> dict[str, str]:
    """The lines of trade_sounds.tsv by their name."""
    lines = read_text("pronunciation/trade_sounds.tsv").splitlines()
    return dict(line.split("\t", 1) for line in lines)


def _sounds_of(words: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The ways that words may sound, and the skeleton of each."""
    if line := _known_sounds().get(" ".join(words)):
        sounds, skeletons = line.split("\t")
        return tuple(sounds.split(" ")), tuple(skeletons.split(" "))
    return heard_as(words)


def heard_as(words: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The same by the rules, without the table that was made with them."""
    readings = pronounce_all(words)
    return readings, tuple(map(skeleton, readings))


def _telling(words: tuple[str, ...]) -> tuple[str, ...]:
    """The words of a term that say something of the trade; a term of one word says what it says."""
    return words if len(words) == 1 else tuple([word for word in words if not is_ordinary(word)])


@dataclass(slots=True)
class _Single:
    """A word of the terms by itself. named: it ends a name or is expected, so that its other number may be said too."""

    weight: float
    kind: str
    named: bool


def _add_singles(singles: dict[str, _Single], words: tuple[str, ...], telling: tuple[str, ...], term: Term) -> None:
    weight = term.weight if len(words) == 1 else term.weight * EXPECTED
    for word in telling:
        named = word is words[-1] or term.weight >= OWN
        single = singles.get(word)
        if single is None:
            singles[word] = _Single(weight, term.kind, named)
            continue
        if single.weight < weight:
            single.weight, single.kind = weight, term.kind
        single.named |= named


def _add_forms(lexicon: Lexicon, singles: dict[str, _Single]) -> None:
    forms: dict[str, _Single] = {}
    for word, single in singles.items():
        for number in numbers_of(word):
            lexicon.weights[number] = max(lexicon.weights.get(number, 0.0), single.weight)
            # an everyday word inside a name of the trade at large (dead blow hammer) is nothing to look for alone
            worth = single.named or (number == word and commonness(word) >= 3)
            if worth and len(number) > 2 and (number not in forms or forms[number].weight < single.weight):
                forms[number] = single
    for word, single in forms.items():
        lexicon.add_form((word,), single.kind, single.weight)
    for words, term in lexicon.names.items():
        own = term.weight >= OWN
        if own or (len(words) == 2 and len(term.name) <= _WHOLE_SOUNDS + 3 and not any(map(is_ordinary, words))):
            for first, last in pairwise(words):
                for number in numbers_of(last) if own else (last,):
                    lexicon.add_form((first, number), term.kind, term.weight)


@lru_cache(maxsize=4)
def lexicon_of(terms: tuple[Term, ...]) -> Lexicon:
    """The lexicon of a recording's terms, and of the measures and materials that everyday.toml gives company to."""
    names: dict[tuple[str, ...], Term] = {}
    words_of_company = (Term(word, "word", TRADE) for word in everyday().company)
    for term in (*terms, *words_of_company):
        words = tuple(term.name.split())
        known = names.get(words)
        if words and not (known and known.weight >= term.weight):
            names[words] = term
    lexicon = Lexicon(names)
    singles: dict[str, _Single] = {}
    for words, term in names.items():
        telling = _telling(words)
        lexicon.add_words(words, telling, term)
        _add_singles(singles, words, telling, term)
    _add_forms(lexicon, singles)
    return lexicon
