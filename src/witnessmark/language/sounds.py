"""How words sound, and how far apart two sounds are.

Phonemes are the 39 of the CMU Pronouncing Dictionary and its schwa, one character each (phonemes.csv). A string of
them is called *sounds* here, whether it holds one word or several: word boundaries leave no trace, as in speech.
"""

import csv
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from itertools import accumulate, islice, product
from typing import Final

from rapidfuzz.distance import Levenshtein

from witnessmark.data import line_of

NAME: Final = 9
"""The commonness of a word that the dictionary has and no list of English words: mostly a name."""
UNLISTED: Final = 10
"""The commonness of a word that stands nowhere: a word of one trade, or letters that a caption made up."""

_WIDE: Final = frozenset("YWQ")
"""The diphthongs that travel far; EY and OW hardly move."""
_MAX_READINGS: Final = 4
_MOST_LETTERS: Final = 4
_ENDINGS: Final = {"s": "z", "ed": "d", "ing": "IN", "er": "R", "ers": "Rz", "y": "i", "less": "lxs"}


@dataclass(frozen=True, slots=True)
class Phoneme:
    """One row of phonemes.csv.

    place, height, back: positions on the IPA chart, in our own steps. weight: the cost of leaving the phoneme out.
    """

    code: str
    name: str
    vowel: bool
    place: float
    manner: float
    voiced: float
    height: float
    back: float
    rounded: float
    weight: float


def _data(name: str) -> str:
    return (resources.files("witnessmark") / "data" / "pronunciation" / name).read_text(encoding="utf-8")


def _rows(name: str) -> Iterator[dict[str, str]]:
    return csv.DictReader(_data(name).splitlines())


@lru_cache(maxsize=1)
def phonemes() -> dict[str, Phoneme]:
    """The phonemes by their one-character code."""
    columns = ("place", "manner", "voiced", "height", "back", "round", "weight")
    return {
        row["code"]: Phoneme(
            row["code"], row["name"], row["kind"] == "vowel", *(float(row[column] or 0) for column in columns)
        )
        for row in _rows("phonemes.csv")
    }


# ---- pronunciation -------------------------------------------------------------------------------------------------


@lru_cache(maxsize=20_000)
def _line(word: str) -> tuple[int, tuple[str, ...]] | None:
    """The word's commonness and pronunciations in words.tsv."""
    cells = line_of("pronunciation/words.tsv", word)
    return (int(cells[0]), tuple(cells[1].split())) if cells else None


@lru_cache(maxsize=1)
def _codes() -> dict[str, str]:
    return {phoneme.name: phoneme.code for phoneme in phonemes().values()}


def _from_names(names: str) -> str:
    return "".join(_codes()[name] for name in names.split())


@lru_cache(maxsize=1)
def _trade_words() -> dict[str, str]:
    return {row["word"]: _from_names(row["sounds"]) for row in _rows("trade_words.csv")}


@lru_cache(maxsize=1)
def _letters() -> tuple[re.Pattern[str], tuple[str, ...]]:
    lines = [line.split("\t") for line in _data("letters.tsv").splitlines() if not line.startswith("#")]
    return re.compile("|".join(f"({pattern})" for pattern, _ in lines)), tuple(
        _from_names(sounds) for _, sounds in lines
    )


def spell_out(word: str) -> str:
    """The sounds that the letters of an unknown word suggest. word: lower-case letters; others are passed over."""
    pattern, sounds = _letters()
    return re.sub(
        r"(.)\1+", r"\1", "".join(sounds[match.lastindex - 1] for match in pattern.finditer(word) if match.lastindex)
    )


def _listed(word: str) -> tuple[str, ...]:
    if word in _trade_words():
        return (_trade_words()[word],)
    line = _line(word)
    return line[1] if line else ()


def _ended(stem: str, ending: str) -> str:
    """The sounds of a stem with an ending, s and d voiced or given a vowel as the stem's last sound asks."""
    if ending == "s":
        return stem + ("Iz" if stem[-1] in "szSZCJ" else "s" if stem[-1] in "ptkfT" else "z")
    if ending == "ed":
        return stem + ("Id" if stem[-1] in "td" else "t" if stem[-1] in "pkfsSCT" else "d")
    return stem + _ENDINGS[ending]


def _built(word: str) -> tuple[str, ...]:
    """A word that no table holds, as a known word with an ending (oaring) or as two known words (chainstay)."""
    for ending in _ENDINGS:
        stem = word.removesuffix(ending)
        if stem != word and len(stem) >= 3:
            doubled = stem[:-1] if stem[-1] == stem[-2] else stem
            for whole in (stem, doubled) if ending == "s" else (stem, stem + "e", doubled):
                if _listed(whole):
                    return tuple(_ended(sounds, ending) for sounds in _listed(whole))
    for cut in range(len(word) - 3, 2, -1):
        left, right = word[:cut], word[cut:]
        if commonness(left) < NAME and commonness(right) < NAME and _listed(left) and _listed(right):
            return (_listed(left)[0] + _listed(right)[0],)
    return ()


def _lettered(word: str) -> tuple[str, ...]:
    """A short word with no vowel but a closing e is said letter by letter: ptfe, pcv."""
    if len(word) > _MOST_LETTERS or re.search("[aiouy]|[^e]e.", word):
        return ()
    return ("".join(_listed(letter)[0] for letter in word),)


@lru_cache(maxsize=20_000)
def pronounce(word: str) -> tuple[str, ...]:
    """The ways a lower-case word may sound, the likeliest first; none for figures and signs."""
    if not re.fullmatch(r"[a-z]+", word):
        word = re.sub(r"[^a-z]", "", word)
    if not word:
        return ()
    sounds = _listed(word) or _built(word) or _lettered(word) or (spell_out(word),)
    # before ng many speakers raise the vowel of crank towards that of crane
    return sounds + tuple(reading.replace("AN", "eN") for reading in sounds if "AN" in reading)


def pronounce_all(words: Iterable[str]) -> tuple[str, ...]:
    """The ways a run of words may sound when said together: at most four."""
    # before r most speakers make no difference between the vowels of oar and or
    return tuple("".join(parts).replace("Or", "or") for parts in islice(product(*map(pronounce, words)), _MAX_READINGS))


def commonness(word: str) -> int:
    """How common the word is.

    1 for an everyday word to 6 for a rare one (the word-list sizes of SCOWL), NAME for one that only the dictionary
    has, UNLISTED for others.
    """
    line = _line(word)
    return line[0] if line else UNLISTED


# ---- distance ------------------------------------------------------------------------------------------------------


def _vowel_cost(a: Phoneme, b: Phoneme) -> float:
    apart = 0.12 * abs(a.height - b.height) + 0.15 * abs(a.back - b.back) + 0.15 * abs(a.rounded - b.rounded)
    if (a.code in _WIDE) != (b.code in _WIDE):
        apart += 0.25
    # speech wears every unstressed vowel down towards schwa
    return apart * 0.7 if "x" in (a.code, b.code) else apart


def _consonant_cost(a: Phoneme, b: Phoneme) -> float:
    return 0.12 * abs(a.place - b.place) + 0.2 * abs(a.manner - b.manner) + 0.15 * abs(a.voiced - b.voiced)


_OVERRIDES: Final = {
    frozenset("Rr"): 0.4,
    frozenset("Ro"): 0.25,
    frozenset("Ra"): 0.35,
    frozenset("iy"): 0.35,
    frozenset("Iy"): 0.4,
    frozenset("uw"): 0.35,
    frozenset("Uw"): 0.4,
}


@lru_cache(maxsize=1)
def _substitutions() -> dict[str, dict[str, float]]:
    costs: dict[str, dict[str, float]] = {code: {} for code in phonemes()}
    for a, b in product(phonemes().values(), repeat=2):
        pair = frozenset((a.code, b.code))
        if a.code == b.code:
            cost = 0.0
        elif pair in _OVERRIDES:
            cost = _OVERRIDES[pair]
        elif a.vowel != b.vowel:
            cost = 1.6
        else:
            cost = min(1.0, max(0.15, _vowel_cost(a, b) if a.vowel else _consonant_cost(a, b)))
        costs[a.code][b.code] = cost
    return costs


@lru_cache(maxsize=20_000)
def _weights(sounds: str) -> tuple[float, ...]:
    """The cost of each phoneme's presence or absence where it stands."""
    table = phonemes()
    weights = []
    for at, code in enumerate(sounds):
        weight = table[code].weight
        before, after = sounds[at - 1 : at], sounds[at + 1 : at + 2]
        closes = before in table and table[before].vowel and not (after and table[after].vowel)
        if code == before:
            weight = 0.1
        elif code in "mnN" and before in tuple("mnN"):
            weight = 0.3
        elif code == "r" and before in ("x", "R"):
            weight = 0.25  # schwa and r run together: the railer, derailleur
        elif code == "r" and closes:
            weight = 0.25  # speakers without r after a vowel say torque and talk alike
        elif code == "l" and closes:
            weight = 0.4
        elif code in "tdkgpb" and not after:
            weight *= 0.6
        elif code in "td" and before in tuple("nsl") and not table[after].vowel:
            weight *= 0.5
        weights.append(weight)
    return tuple(weights)


def distance(a: str, b: str, cutoff: float = 1e9) -> float:
    """The weighted edit distance of two sounds.

    0.0 alike; about 0.15 for a voicing, 0.3 for a nearby vowel, 0.7 for a whole phoneme more or less.

    cutoff: a distance past which only being past it matters; the value given may then be anything greater.
    """
    swaps, drop_a, drop_b = _substitutions(), _weights(a), _weights(b)
    row = [0.0, *accumulate(drop_b)]
    for x, drop in zip(a, drop_a, strict=True):
        swap, diagonal = swaps[x], row[0]
        left = diagonal + drop
        above_row, row = row[1:], [left]
        for y, add, above in zip(b, drop_b, above_row, strict=True):
            left += add
            if above + drop < left:
                left = above + drop
            if diagonal + swap[y] < left:
                left = diagonal + swap[y]
            diagonal = above
            row.append(left)
        if min(row) > cutoff:
            return min(row)
    return row[-1]


def most_edits(length: int, limit: float) -> int:
    """How many of so many phonemes may differ at most within limit, where the cheapest differences cost about 0.12."""
    return max(1, min(length // 2, int(limit * length / 0.12) + 1))


def nearest(a: Iterable[str], b: Iterable[str], limit: float = 1.0) -> float:
    """The least distance between a reading of a and one of b, for each phoneme of the longer; 1.0 past limit."""
    best, near = limit, 1.0
    for x, y in product(a, b):
        longer = max(len(x), len(y))
        edits = most_edits(longer, best)
        if Levenshtein.distance(x, y, score_cutoff=edits) <= edits:
            apart = distance(x, y, best * longer) / longer
            if apart <= best:
                best = near = apart
    return near


# ---- skeletons -----------------------------------------------------------------------------------------------------

_FOLDED: Final = (
    ("pb", "p"),
    ("fv", "f"),
    ("tdTD", "t"),
    ("szSZ", "s"),
    ("CJ", "C"),
    ("kg", "k"),
    ("mnN", "n"),
    ("lr", "l"),
)


@lru_cache(maxsize=1)
def _folding() -> tuple[re.Pattern[str], dict[int, str]]:
    """What drops every r that no vowel follows, and the table from a phoneme to what the skeleton keeps of it."""
    vowels = "".join(code for code, phoneme in phonemes().items() if phoneme.vowel)
    kept = {ord(code): bone for codes, bone in _FOLDED for code in codes}
    return re.compile(f"[rR](?![{vowels}])"), {ord(code): kept.get(ord(code), "") for code in phonemes()} | {
        ord("R"): "l"
    }


@lru_cache(maxsize=50_000)
def skeleton(sounds: str) -> str:
    """The consonants of sounds with voicing, near places, r and l folded: what stays when a word is misheard."""
    silent, table = _folding()
    bones = silent.sub("", sounds).translate(table)
    return "".join(bone for at, bone in enumerate(bones) if not at or bone != bones[at - 1])
