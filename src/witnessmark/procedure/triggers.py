"""Patterns of words that tell what is being done: how data/hazards.toml and data/promises.toml say what to look for.

coil spring                  the words one after another, whatever their number (springs) and with articles and fillers between them;
                             in hazards.toml forms of `be` and small numbers too (plug's out, on two stands)
~jack up                     any form of the verb (jack, jacks, jacked, jacking)
brake|carb cleaner           one word or the other; ~cool_down|hot joins words that are one choice
[remove] blade               one phrase of the group `remove`
~lift ... car                the second within four words of the first
capacitor & ~short|~discharge   both within a dozen words, in either order
spring & !clamp              the first, and the second not within four words
# kilo                       a number of 15 or more, written or spoken
"""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from witnessmark.language.vocabulary import lemmas_of, tokens_of
from witnessmark.language.words import base_forms

SKIPPED = frozenset(
    [
        "the",
        "a",
        "an",
        "this",
        "that",
        "these",
        "those",
        "your",
        "my",
        "our",
        "his",
        "their",
        "its",
        "uh",
        "um",
        "er",
        "just",
        ",",
        '"',
    ]
)
BETWEEN = frozenset(
    "'s is are was were 're been being be now all both right already really actually very two three four six well".split()  # noqa: SIM905
)
GAP = 4
NEAR = 12
BARRED = 4
LARGE = "#"
_UNITS = frozenset(["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"])
_TENS = frozenset(
    [
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
        "twenty",
        "thirty",
        "forty",
        "fifty",
        "sixty",
        "seventy",
        "eighty",
        "ninety",
        "hundred",
    ]
)

Spans = Mapping[str, Sequence[tuple[int, int]]]
Groups = Mapping[str, Sequence[str]]


@dataclass(frozen=True, slots=True)
class Pattern:
    """A compiled pattern. terms: each a row of atoms that follow one another. barred: atoms that must not be near."""

    terms: tuple[tuple[str, ...], ...]
    barred: tuple[str, ...]

    @property
    def atoms(self) -> tuple[str, ...]:
        """Every atom to look for."""
        return (*(atom for term in self.terms for atom in term), *self.barred)


def compile_pattern(text: str) -> Pattern:
    """Read one pattern. Raises ValueError where it holds nothing to look for."""
    parts = [part.strip() for part in text.split(" & ")]
    terms = tuple(tuple(atom.strip() for atom in part.split(" ... ")) for part in parts if not part.startswith("!"))
    if not terms or not all(atom for term in terms for atom in term):
        raise ValueError(f"{text!r} holds nothing to look for")
    return Pattern(terms, tuple(part[1:].strip() for part in parts if part.startswith("!")))


class _Choices(dict[str, tuple[tuple[str, ...], ...]]):
    """Every row of lemmas that one word of an atom stands for, worked out once for a whole book of patterns.

    Raises KeyError where it names no group, ValueError where one choice of several is a word that is passed over.
    """

    def __init__(self, groups: Groups) -> None:
        self._groups = groups

    def __missing__(self, word: str) -> tuple[tuple[str, ...], ...]:
        rows = self[word] = tuple(self._rows(word))
        return rows

    def _rows(self, word: str) -> Iterator[tuple[str, ...]]:
        choices = word.split("|")
        if len(choices) > 1 and not SKIPPED.isdisjoint(choices):
            raise ValueError(f"{word!r}: a word that is passed over cannot be one choice of several")
        for choice in choices:
            if choice == LARGE:
                yield (LARGE,)
            elif choice.startswith("["):
                for phrase in self._groups[choice[1:-1]]:
                    yield from expand(phrase, self)
            elif choice.startswith("~") and "_" not in choice:
                yield from sorted({lemmas_of((form,)) for form in base_forms(choice[1:])})
            elif "_" in choice:
                yield from expand(choice.replace("_", " "), self)
            else:
                yield lemmas_of(tokens_of(choice))


def expand(atom: str, choices: _Choices) -> Iterator[tuple[str, ...]]:
    """Every row of lemmas that an atom stands for, words that are passed over left out."""
    for row in product(*[choices[word] for word in atom.split()]):
        yield tuple([lemma for words in row for lemma in words if lemma not in SKIPPED])


class _Node:
    """One word of a row of lemmas; atoms: those that end here."""

    __slots__ = ("after", "atoms")

    def __init__(self) -> None:
        self.after: dict[str, _Node] = {}
        self.atoms: list[str] = []


class Index:
    """All atoms of a book of patterns, found in one pass over a recording.

    between: words that may stand inside an atom unasked (lead off: lead's off, lead was off).
    """

    def __init__(self, atoms: Iterable[str], groups: Groups, between: frozenset[str] = frozenset()) -> None:
        self._root = _Node()
        self._between = between
        choices = _Choices(groups)
        for atom in dict.fromkeys(atoms):
            for row in dict.fromkeys(expand(atom, choices)):
                node = self._root
                for lemma in row:
                    after = node.after.get(lemma)
                    if after is None:
                        after = node.after[lemma] = _Node()
                    node = after
                node.atoms.append(atom)

    def spans(self, lemmas: Sequence[str]) -> dict[str, list[tuple[int, int]]]:
        """Where each atom stands, in order of start."""
        found: dict[str, list[tuple[int, int]]] = {}
        for start in range(len(lemmas)):
            nodes = [self._root]
            at = start
            while nodes and at < len(lemmas):
                keys = (lemmas[at], LARGE) if _is_large(lemmas[at]) else (lemmas[at],)
                waiting = nodes if at > start and lemmas[at] in self._between else []
                nodes = [node.after[key] for node in nodes for key in keys if key in node.after]
                at += 1
                for atom in (atom for node in nodes for atom in node.atoms):
                    found.setdefault(atom, []).append((start, at))
                nodes += waiting
        return found


def _is_large(lemma: str) -> bool:
    return lemma in _TENS or (lemma.replace(".", "", 1).isdecimal() and 15 <= float(lemma) < 1000)


def occurrences(pattern: Pattern, spans: Spans) -> Iterator[tuple[int, int]]:
    """Where a pattern holds, in order: the span of its first term."""
    others = [[start for start, _ in _term(term, spans)] for term in pattern.terms[1:]]
    barred = [[start for start, _ in spans.get(atom, ())] for atom in pattern.barred]
    for start, end in _term(pattern.terms[0], spans):
        if all(_between(starts, start - NEAR, end + NEAR) for starts in others) and not any(
            _between(starts, start - BARRED, end + BARRED) for starts in barred
        ):
            yield start, end


def _term(term: Sequence[str], spans: Spans) -> Iterator[tuple[int, int]]:
    for start, first_end in spans.get(term[0], ()):
        end = first_end
        for atom in term[1:]:
            following = spans.get(atom, ())
            place = bisect_left(following, (end, 0))
            if place == len(following) or following[place][0] > end + GAP:
                break
            end = following[place][1]
        else:
            yield start, end


def _between(starts: Sequence[int], low: int, high: int) -> bool:
    place = bisect_left(starts, low)
    return place < len(starts) and starts[place] < high


def spoken_words(lemmas: Sequence[str]) -> tuple[tuple[str, ...], tuple[int, ...]]:
    """The lemmas that patterns read, articles, fillers and the units after a spoken ten left out, and the index each had before."""
    kept: list[tuple[str, int]] = []
    for index, lemma in enumerate(lemmas):
        after_ten = bool(kept) and kept[-1][0] in _TENS
        follows = lemmas[index + 1] if index + 1 < len(lemmas) else ""
        of_number = lemma in _UNITS or (lemma == "and" and follows in _UNITS | _TENS)
        if lemma not in SKIPPED and not (after_ten and of_number):
            kept.append((lemma, index))
    return tuple(lemma for lemma, _ in kept), tuple(index for _, index in kept)
