"""Set ways of telling a deed in which no verb names it: "run your nail up it", "one side at a time", "down hold close up".

data/procedure/sayings.toml lists them. What is said is a row of words:

over|along        one word or the other; in_front joins words that are one choice
~run              any form of the verb
[penetrant]       one phrase of the group `penetrant`
good?             may be left out; !yet may not stand here, &for has to and is not yet read
,                 a stop or a comma may stand here; elsewhere none may
^ ... $           a clause begins here, or may end here
<thing>           a name that says which thing is meant; <it> a word that points at one, <any> either;
                  <which> what only tells it from its like: "the middle one";
                  <thing:wheels> with a last word of the group `wheels`, <thing:!papers> with none of it
<whole>           such a name with the place behind it: "the metal around the hinge"
<place>           a second name
<value:kind>      a value of that kind; <loose:kind> one that no item of the table has; <rest> the words up to the end of the clause;
                  <time> a length of time
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any

from witnessmark.data import read_toml
from witnessmark.language.tokens import PUNCTUATION
from witnessmark.language.words import singular
from witnessmark.procedure.bare import ends_before
from witnessmark.procedure.clauses import begins_clause
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, kinds, phrase_table, word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.moods import mood_of, words_before
from witnessmark.procedure.names import Name, cut_at, read_name, with_place
from witnessmark.procedure.spoken import Spoken, is_plural
from witnessmark.procedure.tails import Tail, read_tail
from witnessmark.procedure.waits import time_told

LONGEST_REST = 7  # words that <rest> takes
NEAR = 30  # tokens behind a bleeding in which it is told until when
# things that a kind of word tells: their article, what is meant where none was named, tokens back within which one may be
LOOKED_UP = {
    "fluid": ("the old", "the old fluid", 120),
    "bled": ("the", "the brakes", 300),
    "labelled": ("each", "", 60),
    "dirt": ("the", "the dust", 60),
}


@dataclass(frozen=True, slots=True)
class Saying:
    """One way of saying a deed.

    said: its atoms. words: the imperative. thing, tails: templates. negative: told as not to be done.
    denied: said of what is not to be done. more: what follows is told too.
    """

    said: tuple[str, ...]
    words: tuple[str, ...]
    action: str
    thing: str
    tails: tuple[str, ...]
    negative: bool
    denied: bool
    more: bool


@dataclass(slots=True)
class _Found:
    """What the slots of a saying took. end: token after it."""

    end: int
    names: dict[str, Name] = field(default_factory=dict)
    values: tuple[ValueAt, ...] = ()
    texts: dict[str, str] = field(default_factory=dict)


def read_saying(spoken: Spoken, index: int, since: int) -> Action | None:
    """The action of the saying that begins at a token; None where none does."""
    for saying in _sayings(spoken, index):
        found = _match(spoken, index, saying.said, _Found(index), index, since)
        if found is None:
            continue
        mood = _mood(spoken, index, since, saying)
        if mood is not None:
            return _action(spoken, index, saying, found, mood)
    return None


def _mood(spoken: Spoken, index: int, since: int, saying: Saying) -> bool | None:
    """Whether it is not to be done; None where it is only supposed."""
    verb = kinds(spoken.texts[index]).verb
    if saying.said[0].startswith("~") and verb:
        mood = mood_of(spoken, index, verb, since)
        if mood == "none" or (mood == "dont") != saying.denied:
            return None if mood == "none" or saying.denied else True
        return saying.negative
    before = words_before(spoken, index, since)
    supposed = before and (
        before[-1] in word_set("conditions") or before[-1] in ("not", "n't", "or", "like", "has", "had")
    )
    return None if supposed or saying.denied else saying.negative


def _action(spoken: Spoken, index: int, saying: Saying, found: _Found, negative: bool) -> Action | None:
    fills = {slot: thing.text for slot, thing in found.names.items()} | found.texts
    fills |= {f"bare_{slot}": text.removeprefix("the ").removeprefix("a ") for slot, text in found.texts.items()}
    fills |= {f"bare_{slot}": thing.text.removeprefix("the ") for slot, thing in found.names.items()}
    fills |= {"machine": f"the {spoken.machine}", "said": " ".join(spoken.texts[index : found.end])}
    name: Name | None = None
    if saying.thing in ("{thing}", "{any}", "{it}"):
        name = next((found.names[slot] for slot in ("thing", "any", "it", "which") if slot in found.names), None)
        name = name or Name(index, found.end, "")
    elif saying.thing:
        looked_up = _looked_up(spoken, saying.thing, index)
        if looked_up == "":
            return None
        text = looked_up or saying.thing.format(**fills)
        name = Name(index, found.end, text, text.split()[-1], is_plural(text))
    tails = [tail.format(**fills) for tail in saying.tails]
    if saying.action == "bleed" and "bubbles" in spoken.texts[index : found.end + NEAR]:
        tails.append("until no more bubbles come out")
    tail = Tail(tails, found.end, "", found.values)
    if saying.more and not spoken.stops_before(found.end):
        tail = read_tail(spoken, found.end)
        tail.phrases[:0] = tails
        tail.particle = ""
    return Action(index, tail.end, Deed(saying.words, saying.action), name, tail, negative, "saying", sure=True)


def _looked_up(spoken: Spoken, thing: str, index: int) -> str | None:
    """The last thing named that such a deed is done to, "" where it is not told; None where it needs none."""
    kind = thing.strip("{}")
    if kind not in LOOKED_UP:
        return None
    article, otherwise, far = LOOKED_UP[kind]
    words = phrase_table("measures", "fluids")["words"] if kind == "fluid" else _table()["groups"][kind]
    for i in range(index - 1, max(index - far, -1), -1):
        word = singular(spoken.texts[i])
        if word in words:
            return f"{article} {word if kind == 'labelled' else spoken.texts[i]}"
    return otherwise


def _match(
    spoken: Spoken, at: int, said: tuple[str, ...], found: _Found, start: int, since: int, stop: bool = True
) -> _Found | None:
    """The first way in which the words from a token on are what is said. stop: whether one may stand before `at`."""
    if not said:
        return _Found(at, found.names, found.values, found.texts)
    atom, rest = said[0], said[1:]
    if atom == "^":
        return _match(spoken, at, rest, found, start, since) if begins_clause(spoken, at, since) else None
    if atom == "$":
        return _match(spoken, at, rest, found, start, since, stop) if ends_before(spoken, at) else None
    if atom == ",":
        after = at + 1 if spoken.text(at) in PUNCTUATION else at
        return _match(spoken, after, rest, found, start, since)
    if atom[0] in "!&":
        stands = any(True for _ in _take(spoken, at, atom[1:], found))
        return None if stands == (atom[0] == "!") else _match(spoken, at, rest, found, start, since, stop)
    if stop or not spoken.stops_before(at):
        for end, taken in _take(spoken, at, atom.removesuffix("?"), found):
            if (result := _match(spoken, end, rest, taken, start, since, stop=False)) is not None:
                return result
        if at > start and spoken.text(at) in word_set("fillers") and not atom.endswith("?"):
            return _match(spoken, at + 1, said, found, start, since, stop=False)
    return _match(spoken, at, rest, found, start, since, stop) if atom.endswith("?") else None


def _take(spoken: Spoken, at: int, atom: str, found: _Found) -> Iterator[tuple[int, _Found]]:
    """Every way in which one atom can stand at a token: (token after it, what the slots took)."""
    if atom.startswith("<"):
        yield from _slot(spoken, at, atom[1:-1], found)
        return
    for phrase in _phrases(atom):
        end = at + len(phrase)
        if all(_is_word(spoken.text(at + n), word) for n, word in enumerate(phrase)) and not any(
            spoken.stops_before(i) for i in range(at + 1, end)
        ):
            texts = found.texts | {atom[1:-1]: " ".join(phrase)} if atom.startswith("[") else found.texts
            yield end, _Found(end, found.names, found.values, texts)


def _is_word(text: str, word: str) -> bool:
    return kinds(text).verb == word[1:] if word.startswith("~") and text else text == word


def _slot(spoken: Spoken, at: int, slot: str, found: _Found) -> Iterator[tuple[int, _Found]]:
    kind, _, which = slot.partition(":")
    if kind in ("value", "loose"):
        value = spoken.value_over.get(at)
        fits = value is not None and value.kind in which.split("/") and (kind == "value" or value.item is None)
        if value is not None and fits and value.start_token == at and not value.quoted:
            texts = found.texts | {"value": value.shown}
            yield value.end_token, _Found(at, found.names, (*found.values, value), texts)
    elif kind == "count":
        text = spoken.text(at)
        if (text in word_set("numbers") or text.isdigit()) and at not in spoken.value_over:
            yield at + 1, found
    elif kind == "time":
        yield from _time(spoken, at, found)
    elif kind == "rest":
        end = at
        while end < len(spoken.texts) and end - at < LONGEST_REST and not (end > at and spoken.stops_before(end)):
            if spoken.texts[end] in word_set("until_ends") or spoken.texts[end] in PUNCTUATION:
                break
            end += 1
        if end > at:
            yield end, _Found(at, found.names, found.values, found.texts | {"rest": " ".join(spoken.texts[at:end])})
    else:
        whole = kind == "whole"
        kind = "thing" if whole else kind
        for name in _names(spoken, at, kind, which):
            for longer in (with_place(spoken, name), name) if whole else (name,):
                yield longer.end, _Found(at, found.names | {kind: longer}, found.values, found.texts)


def _time(spoken: Spoken, at: int, found: _Found) -> Iterator[tuple[int, _Found]]:
    """A length of time: "half an hour"."""
    time = time_told(spoken, at)
    if time is not None:
        yield time[1], _Found(at, found.names, found.values, found.texts | {"time": time[0]})


def _names(spoken: Spoken, at: int, kind: str, which: str) -> Iterator[Name]:
    """The names of the kind that a slot asks for, whole and without a verb at its end: "the wire runs".

    which: the group that the last word must be of, or with "!" must not.
    """
    name = read_name(spoken, at) or _all_of(spoken, at)
    if name is None or not _points(spoken, name, kind) or name.head in word_set("living"):
        return
    if name.text.startswith("any "):
        name = replace(name, text=name.text.replace("any", "the", 1))
    if which and not which.startswith("!"):
        ends = [i for i in range(at, name.end) if (spoken.text(i),) in _group(which)]
        yield from (cut_at(spoken, name, end + 1) for end in ends[:1])
        return
    if which and (name.head,) in _group(which[1:]):
        return
    yield name
    last = name.end - 1
    if kinds(spoken.text(last)).verb and last > at + 1 and last not in spoken.sighting_over:
        yield cut_at(spoken, name, last)


def _all_of(spoken: Spoken, at: int) -> Name | None:
    """ "Both of them", "all of those"."""
    counted = spoken.text(at) in ("both", "all", "each") and spoken.text(at + 1) == "of"
    return Name(at, at + 3, "", plural=True) if counted and spoken.text(at + 2) in word_set("pronouns") else None


def _points(spoken: Spoken, name: Name, kind: str) -> bool:
    """Whether a name says as much of the thing as its slot asks for."""
    if not name.vague:
        return kind in ("thing", "place", "any")
    pronoun = any(spoken.text(i) in word_set("pronouns") for i in range(name.start, name.end))
    return bool(name.which) if kind == "which" else kind in ("it", "any") and (pronoun or bool(name.which))


@cache
def _table() -> dict[str, Any]:
    table: dict[str, Any] = read_toml("procedure/sayings.toml")
    return table


@cache
def _group(name: str) -> frozenset[tuple[str, ...]]:
    return frozenset(tuple(phrase.split()) for phrase in _table()["groups"][name])


@cache
def _phrases(atom: str) -> tuple[tuple[str, ...], ...]:
    """The phrases that an atom stands for, longest first."""
    found: set[tuple[str, ...]] = set()
    for choice in atom.split("|"):
        found |= _group(choice[1:-1]) if choice.startswith("[") else {tuple(choice.split("_"))}
    return tuple(sorted(found, key=lambda phrase: (-len(phrase), phrase)))


@cache
def _by_first() -> tuple[dict[str, tuple[Saying, ...]], tuple[Saying, ...]]:
    """Sayings by their first word (a verb by "~" and its base), and those that begin with a name."""
    listed: dict[str, list[Saying]] = {}
    named: list[Saying] = []
    for row in _table()["saying"]:
        for said in row["said"]:
            atoms = tuple(said.split())
            told = tuple(row["told"])
            tails = tuple(row.get("tails", ()))
            saying = Saying(
                atoms,
                told,
                row["action"],
                row.get("thing", ""),
                tails,
                row.get("not", False),
                row.get("denied", False),
                row.get("more", False),
            )
            firsts = _may_come_first(atoms)
            if firsts[-1].startswith("<"):
                named.append(saying)
                continue
            for word in dict.fromkeys(phrase[0] for first in firsts for phrase in _phrases(first)):
                listed.setdefault(word, []).append(saying)
    return {first: tuple(rows) for first, rows in listed.items()}, tuple(named)


def _may_come_first(atoms: tuple[str, ...]) -> list[str]:
    """The atoms that what is said can begin with: those that may be left out, and the first that may not."""
    found: list[str] = []
    for atom in atoms:
        if atom != "^":
            found.append(atom.removesuffix("?"))
        if found and not atom.endswith("?"):
            break
    return found


def _sayings(spoken: Spoken, index: int) -> Iterator[Saying]:
    listed, named = _by_first()
    text = spoken.texts[index]
    yield from listed.get(text, ())
    if base := kinds(text).verb:
        yield from listed.get(f"~{base}", ())
    yield from named
