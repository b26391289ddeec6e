"""One form for each word, so that plural, tense and spelling do not hide that two words are the same."""

from functools import cache

from rapidfuzz.distance import Levenshtein

from witnessmark.data import line_of, read_rows

_IRREGULAR = {
    "feet": "foot",
    "teeth": "tooth",
    "knives": "knife",
    "dice": "die",
    "men": "man",
    "people": "person",
    "halves": "half",
}
_NOT_PLURAL = frozenset(
    "is was this his has as us plus gas bus lens chassis brass glass class grass mess less across press pass yes its does "  # noqa: SIM905
    "bias axis always perhaps unless".split()
)


@cache
def _spellings() -> dict[str, str]:
    """British to American spelling, for pairs that are one word spelled two ways (not two words, as bonnet and hood)."""
    pairs = ((row["uk"], row["us"]) for row in read_rows("vocabulary/spellings.csv"))
    return {uk: us for uk, us in pairs if " " not in uk + us and Levenshtein.distance(uk, us) <= 2 and len(us) > 3}


@cache
def singular(word: str) -> str:
    """The singular of a noun in American spelling; any other word as it stands. Rules cover the regular plurals of English."""
    word = _singular(word)
    return _spellings().get(word, word)


def _singular(word: str) -> str:
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if len(word) < 4 or not word.endswith("s") or word in _NOT_PLURAL or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "xes", "sses", "zzes")):
        return word[:-2]
    return word[:-1]


@cache
def base_forms(verb: str) -> frozenset[str]:
    """All inflected forms of a one-word verb in lower case, the base itself among them."""
    if cells := line_of("inflection/verbs.tsv", verb):
        return frozenset({verb, *cells[0].split()})
    from lemminflect import getAllInflectionsOOV  # its rules load a model; hardly any recording needs them

    found = getAllInflectionsOOV(verb, upos="VERB")
    return frozenset({verb, *(form for forms in found.values() for form in forms)})


@cache
def base_of(word: str) -> dict[str, tuple[str, ...]]:
    """What a lower-case word is a form of: part of speech (NOUN, VERB, ADJ, ADV, AUX) -> base forms; {} for an unknown one."""
    cells = line_of("inflection/lemmas.tsv", word)
    if cells is None:
        return {}
    parts = (part.split(":") for part in cells[0].split(" "))
    return {upos: tuple(word if base == "=" else base for base in bases.split(",")) for upos, bases in parts}
