"""Words as the reading of sentences needs them: what each word can be, which words act, which words only fill."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from witnessmark.data import read_rows, read_toml
from witnessmark.language.vocabulary import split_names, terms, tokens_of
from witnessmark.language.words import base_forms, base_of


@cache
def _table(name: str) -> dict[str, Any]:
    table: dict[str, Any] = read_toml(f"procedure/{name}.toml")
    return table


@cache
def word_set(name: str) -> frozenset[str]:
    """One of the lists of data/procedure/words.toml."""
    return frozenset(_table("words")[name])


@cache
def phrase_table(file: str, name: str) -> dict[str, Any]:
    """One table of a file of data/procedure."""
    table: dict[str, Any] = _table(file)[name]
    return table


@dataclass(frozen=True, slots=True)
class Kinds:
    """What a word can be. verb: its base form, "" where it cannot be a verb."""

    noun: bool
    verb: str
    adjective: bool
    adverb: bool


@cache
def _verb_forms() -> dict[str, str]:
    """Every inflected form of the verbs of the action vocabulary, by their base."""
    return {
        form: verb for verb in sorted({said[0] for said in deeds() if said[0].isalpha()}) for form in base_forms(verb)
    }


@cache
def kinds(word: str) -> Kinds:
    """What a word can be, by the inflection tables; a word they do not know is taken for a noun."""
    known = base_of(word)
    if not known:
        if not word.isalpha():
            return Kinds(True, "", True, False)
        base = _verb_forms().get(word, "")
        if base:
            return Kinds(word == base, base, False, False)
        if word.endswith("in") and (doing := base_of(f"{word}g").get("VERB")):
            return Kinds(False, doing[0], False, False)  # "comin", "hammerin"
        return Kinds(True, _guessed_verb(word) if word.endswith(("ing", "ed")) else "", False, False)
    verb = known.get("VERB", ("",))
    base = verb[-1] if word in verb[1:] else verb[0] or _verb_forms().get(word, "")
    return Kinds("NOUN" in known or "PROPN" in known, base, "ADJ" in known, "ADV" in known)


def _guessed_verb(word: str) -> str:
    from lemminflect import getAllLemmasOOV  # its rules load a model, for words that stand in no table

    guess = getAllLemmasOOV(word, upos="VERB")
    return str(guess.get("VERB", ("",))[0])


def as_written(text: str) -> str:
    """Words with the capitals and hyphens that captions leave out."""
    for said, written in phrase_table("words", "written").items():
        if said in text:
            text = re.sub(rf"(?<![\w-]){said}(?![\w-])", written, text)
    return text


@cache
def _forms(name: str, key: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    found: dict[str, list[tuple[str, ...]]] = {}
    for form in phrase_table(name, key)["forms"]:
        words = tuple(form.split())
        found.setdefault(words[0], []).append(words)
    return {first: tuple(sorted(rows, key=lambda row: -len(row))) for first, rows in found.items()}


def forms_among(words: Sequence[str], forms: Iterable[str]) -> list[str]:
    """The forms, of words parted by spaces, that are said among the words, longest first."""
    said = f" {' '.join(words)} "
    return sorted((form for form in forms if f" {form} " in said), key=lambda form: (-len(form), form))


def form_said(texts: Sequence[str], index: int, name: str, key: str) -> int:
    """How many tokens the longest form of one table takes that begins at a token; 0 where none does."""
    forms = _forms(name, key).get(texts[index], ()) if index < len(texts) else ()
    return next((len(form) for form in forms if tuple(texts[index : index + len(form)]) == form), 0)


def form_of(word: str, base: str) -> str:
    """Which form of a verb a word is: "base", "s", "ing" or "past"."""
    if word == base:
        return "base"
    if word.endswith("ing"):
        return "ing"
    return "s" if word.endswith("s") and not word.endswith("ss") else "past"


@dataclass(frozen=True, slots=True)
class Deed:
    """An action as a guide names it.

    words: the imperative, particle last ("take", "off"). action: class of the action vocabulary.
    """

    words: tuple[str, ...]
    action: str


@cache
def deeds() -> dict[tuple[str, ...], Deed]:
    """Every way of saying an action, as tokens, by what it is called in a guide.

    A guide keeps the speaker's own verb, except where data/procedure/verbs.toml gives it another name ("take out" is
    "remove").
    """
    found: dict[tuple[str, ...], Deed] = {}
    for row in read_rows("vocabulary/actions.csv"):
        name = tokens_of(row["verb"])
        found.setdefault(name, Deed(name, row["action"]))
    for row in read_rows("vocabulary/actions.csv"):
        for form in split_names(row["also_said"]):
            said = tokens_of(form)
            found.setdefault(said, Deed(said, row["action"]))
    for said, name in _table("verbs")["more"].items():
        found.setdefault((said,), Deed((name[0],), name[1]))
    for said, name in _table("verbs")["renamed"].items():
        found[tokens_of(said)] = Deed(tokens_of(name[0]), name[1])
    return found


@cache
def deed(verb: str, particle: str = "") -> Deed | None:
    """The deed of a verb in base form with its particle; the verb alone where the pair is not listed."""
    known = deeds()
    if particle and (verb, particle) in known:
        return known[verb, particle]
    found = known.get((verb,))
    light = phrase_table("verbs", "light").get(verb)
    action = found.action if found else light
    if action is None:
        return None
    base = found.words if found else (verb,)
    return Deed((*base, particle) if particle else base, action)


@cache
def acting_verbs() -> frozenset[str]:
    """Every verb that is an action by itself or with some particle."""
    more = frozenset(phrase_table("verbs", "light")) | frozenset(phrase_table("verbs", "placed"))
    return frozenset(said[0] for said in deeds() if len(said) <= 2) | more


@cache
def deed_phrases() -> dict[str, tuple[tuple[tuple[str, ...], Deed], ...]]:
    """Whole phrases of three words or more that are one action ("turn the water off"), by their first word,
    longest first.
    """
    found: dict[str, list[tuple[tuple[str, ...], Deed]]] = {}
    for said, what in deeds().items():
        if len(said) >= 3 and "it" not in said and "them" not in said:
            written = phrase_table("verbs", "phrases").get(" ".join(said))
            found.setdefault(said[0], []).append((said, Deed(tuple(written.split()) if written else said, what.action)))
    return {first: tuple(sorted(rows, key=lambda row: -len(row[0]))) for first, rows in found.items()}


@cache
def short_names() -> dict[str, str]:
    """Heads that stand for a thing of the vocabulary where the talk is of it ("the pads"), by the kind of thing."""
    found: dict[str, str] = dict.fromkeys(phrase_table("verbs", "fasteners")["heads"], "fastener")
    for kind in ("part", "fastener", "supply", "tool"):
        for term in terms():
            if term.kind == kind:
                for head in term.short:
                    found.setdefault(head, kind)
    return found
