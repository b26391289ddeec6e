"""The terms that a recording may hold, laid out for finding the words that sound like them."""

import re
import tomllib
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from importlib import resources
from typing import Any, Final

from witnessmark.language.sounds import commonness, pronounce_all, skeleton

_PART_WEIGHT: Final = 0.8
"""How strongly a word is expected that only stands inside an expected name, against the name itself."""
_WORD_WEIGHT: Final = 0.4
_SPELLINGS: Final = tuple((re.compile(pattern), put) for pattern, put in (("tre(s?)$", r"ter\1"), ("our", "or"), ("is(e|ed|er|ing)$", r"iz\1"),
    ("^tyr", "tir"), ("ll", "l"), ("isk(s?)$", r"isc\1"), ("^gage", "gauge"), ("grey", "gray"), ("ould", "old"), ("plough", "plow"), ("alumini?um", "aluminum"),
    ("ence$", "ense"), ("sulph", "sulf"), ("^vice", "vise"), ("^kerb", "curb")))  # fmt: skip
_WHOLE_SOUNDS: Final = 12
"""Two-word names with no more phonemes than this are looked for whole; in longer ones a word is always heard right beside the garble."""


@dataclass(frozen=True, slots=True)
class Term:
    """A name that may be said. name: as spoken, lower case, spaces only. weight: 1.0 for a name of the recording's own table, less for the trade's at large."""

    name: str
    kind: str
    weight: float = 0.4


@dataclass(frozen=True, slots=True)
class Form:
    """A term, or one word of it, as it may sound. kind: that of the heaviest term it comes from."""

    words: tuple[str, ...]
    kind: str
    weight: float
    sounds: tuple[str, ...]

    @property
    def name(self) -> str:
        """The words with spaces between."""
        return " ".join(self.words)


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
    phrases: frozenset[tuple[str, ...]]
    company: dict[str, frozenset[str]]


@lru_cache(maxsize=1)
def everyday() -> Everyday:
    """The words of ordinary English that decide where a trade word cannot stand."""
    text = (resources.files("witnessmark") / "data" / "pronunciation" / "everyday.toml").read_text(encoding="utf-8")
    data: dict[str, Any] = tomllib.loads(text)
    lists = {
        name: frozenset(data[name])
        for name in (
            "articles",
            "determiners",
            "verb_signs",
            "objects",
            "function_words",
            "modifiers",
            "units",
            "verbs",
            "seldom_after_nouns",
        )
    }
    phrases = frozenset(tuple(phrase.split()) for phrase in data["phrases"])
    return Everyday(**lists, phrases=phrases, company={word: frozenset(near) for word, near in data["company"].items()})


def singular(word: str) -> str:
    """The word without a plural ending, by spelling alone; a word that has none comes back as it is."""
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-2] if word.endswith(("ches", "shes", "xes", "sses")) else word[:-1]


def plural(word: str) -> str:
    """The regular plural of a word."""
    if word.endswith(("ch", "sh", "x", "ss")):
        return word + "es"
    return word[:-1] + "ies" if word.endswith("y") and word[-2:-1] not in tuple("aeiou") else word + "s"


@lru_cache(maxsize=20_000)
def stem(word: str) -> str:
    """What stays of a word without un- and its grammatical endings, by spelling alone: plug of unplugged, drain of drained and drainer."""
    word = word.removeprefix("un") if len(word) > 5 else word
    for ending in ("ings", "ing", "ers", "er", "ors", "or", "ed", "es", "s", "ly", "y", "e"):
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            word = word[: -len(ending)]
            break
    return word[:-1] if len(word) > 3 and word[-1] == word[-2] else word.removesuffix("e")


def numbers_of(word: str) -> tuple[str, str]:
    """The word as it is, and in its other number."""
    one = singular(word)
    return (word, plural(word)) if one == word else (word, one)


@dataclass(frozen=True)
class Lexicon:
    """What find_misheard looks in.

    weights: every word of a term, in both numbers -> how strongly it is expected. names: all terms' words, whole.
    after, before: a word (singular) -> the words that stand next to it in some term -> the pair's weight. company: a word (singular) -> what stands
    anywhere in a term with it. index: skeleton, whole or with one consonant less -> forms with that skeleton, whole or less one.
    """

    weights: dict[str, float] = field(default_factory=dict)
    names: dict[tuple[str, ...], Term] = field(default_factory=dict)
    after: dict[str, dict[str, float]] = field(default_factory=lambda: defaultdict(dict))
    before: dict[str, dict[str, float]] = field(default_factory=lambda: defaultdict(dict))
    company: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    containing: dict[tuple[str, str], list[Term]] = field(default_factory=lambda: defaultdict(list))
    index: dict[str, list[tuple[Form, bool]]] = field(default_factory=lambda: defaultdict(list))


def _raise_to(table: dict[str, float], word: str, weight: float) -> None:
    if table.get(word, 0.0) < weight:
        table[word] = weight


def is_ordinary(word: str) -> bool:
    """Whether the word says nothing of the trade: a function word, a modifier of any noun, a unit, a figure."""
    lists = everyday()
    return word in lists.function_words or word in lists.modifiers or word in lists.units or not word.isalpha()


@lru_cache(maxsize=20_000)
def one_spelling(word: str) -> str:
    """The word with the spellings of both sides of the Atlantic made one: metre and meter, tyre and tire, calliper and caliper."""
    for pattern, put in _SPELLINGS:
        word = pattern.sub(put, word)
    return word


def _add_names(lexicon: Lexicon, terms: Iterable[Term]) -> dict[str, tuple[float, str]]:
    """Fill all but the index; gives the single words worth finding with their weights and kinds."""
    singles: dict[str, tuple[float, str]] = {}
    for term in terms:
        words = tuple(term.name.split())
        known = lexicon.names.get(words)
        if not words or (known and known.weight >= term.weight):
            continue
        lexicon.names[words] = term
        for at, word in enumerate(words):
            if is_ordinary(word) and len(words) > 1:
                continue
            last = at == len(words) - 1
            weight = term.weight if len(words) == 1 else term.weight * _PART_WEIGHT
            for number in numbers_of(word):
                _raise_to(lexicon.weights, number, weight)
                worth = last or term.weight >= 1.0 or commonness(number) >= 3
                if (
                    worth
                    and (number == word or last)
                    and len(number) > 2
                    and singles.get(number, (0.0, ""))[0] < weight
                ):
                    singles[number] = (weight, term.kind)
            lexicon.company[singular(word)].update(other for other in words if other != word and not is_ordinary(other))
        for a, b in zip(words, words[1:], strict=False):
            if {a, b} & everyday().function_words:
                continue
            _raise_to(lexicon.after[singular(a)], b, term.weight)
            _raise_to(lexicon.before[singular(b)], a, term.weight)
            lexicon.containing[singular(a), singular(b)].append(term)
    for word, near in everyday().company.items():
        lexicon.company[word].update(near)
        for number in numbers_of(word):
            _raise_to(lexicon.weights, number, _WORD_WEIGHT)
            singles.setdefault(number, (_WORD_WEIGHT, "word"))
    return singles


def _add_to_index(lexicon: Lexicon, form: Form) -> None:
    keys = {skeleton(sounds) for sounds in form.sounds}
    for bones in keys:
        lexicon.index[bones].append((form, True))
        for less in less_one(bones):
            lexicon.index[less].append((form, False))


def less_one(bones: str) -> set[str]:
    """Every skeleton with one consonant of bones left out, bones itself not among them; none of a skeleton of one."""
    return {bones[:at] + bones[at + 1 :] for at in range(len(bones))} - {bones, ""}


@lru_cache(maxsize=4)
def lexicon_of(terms: tuple[Term, ...]) -> Lexicon:
    """The lexicon of a recording's terms."""
    lexicon = Lexicon()
    singles = _add_names(lexicon, terms)
    forms = [((word,), kind, weight) for word, (weight, kind) in singles.items()]
    for words, term in lexicon.names.items():
        pairs = zip(words, words[1:], strict=False) if term.weight >= 1.0 else [words] if len(words) == 2 else []
        forms += [((first, number), term.kind, term.weight) for first, last in pairs for number in numbers_of(last)]
    for words, kind, weight in forms:
        sounds = pronounce_all(words)
        if sounds and (len(words) == 1 or len(sounds[0]) <= _WHOLE_SOUNDS):
            _add_to_index(lexicon, Form(words, kind, weight, sounds))
    return lexicon


def meaningful(words: Sequence[str]) -> bool:
    """Whether any of the words is more than a function word."""
    return any(word not in everyday().function_words for word in words)
