"""The recording as the reading of sentences needs it: tokens with the things and the values that stand in them."""

from collections import Counter
from dataclasses import dataclass, replace
from functools import cache, cached_property
from itertools import pairwise

from witnessmark.language.speech import Speech
from witnessmark.language.tokens import PUNCTUATION
from witnessmark.language.utterances import Utterance, find_utterances
from witnessmark.language.vocabulary import key_of
from witnessmark.language.words import singular
from witnessmark.procedure.lexicon import kinds, phrase_table, short_names, word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.reading.sightings import Sighting


@dataclass(frozen=True)
class Spoken:
    """Speech with what was found in it. kind: of machine, as the project's settings tell it ("hay baler"); "" where they do not."""

    speech: Speech
    named: tuple[Sighting, ...]
    values: tuple[ValueAt, ...]
    kind: str = ""

    @cached_property
    def texts(self) -> tuple[str, ...]:
        """Every token's text."""
        return self.speech.texts

    @cached_property
    def sightings(self) -> tuple[Sighting, ...]:
        """The things named in full, and between them those named by their short heads."""
        over = {i for sighting in self.named for i in range(sighting.start, sighting.end)}
        short = [
            Sighting(i, i + 1, token.text, kind, None)
            for i, token in enumerate(self.speech.tokens)
            if i not in over
            and (i - 1) not in self.value_over
            and (kind := short_names().get(token.lemma)) is not None
            and self._is_thing(i)
        ]
        full = [
            replace(s, kind="part")
            if s.kind == "tool" and is_plural(s.name) and not is_plural(self.texts[s.end - 1])
            else s
            for s in self.named
            if s.end - s.start > 1 or not self.moves_by_itself(s.start)
        ]
        return tuple(sorted([*full, *short], key=lambda sighting: sighting.start))

    def _is_thing(self, index: int) -> bool:
        """Whether a word that can be a verb too stands here as a thing:
        behind an article, a number or another word of a name.
        """
        text = self.texts[index]
        before = self.text(index - 1)
        if not kinds(text).verb or self.text(index + 1) == "'s":
            return True
        if (
            self.text(index + 1) in ("goes", "comes", "gets")
            and kinds(text).noun
            and text not in word_set("stuff_verbs")
        ):
            return True  # "belt goes on"
        if self._moves(index):
            return False  # "the top yoke lifts off"
        plain = (
            is_nominal(before)
            and kinds(before).noun
            and not kinds(before).verb
            and before not in word_set("name_words")
        )
        described = (
            kinds(before).adjective and before not in closed_words() and self.text(index - 2) in word_set("determiners")
        )
        return (
            plain
            or described
            or before in word_set("determiners")
            or before in word_set("numbers")
            or before in ("new", "old", "other", "and")
            or is_plural(text)
        )

    def _moves(self, index: int) -> bool:
        """Whether a word is the verb of a thing that comes off or goes in; of fasteners it is hardly ever told so."""
        text, before = self.texts[index], self.text(index - 1)
        heads = phrase_table("verbs", "fasteners")["heads"]
        if self.moves_by_itself(index):
            return True
        led = kinds(before).noun and not is_plural(before) and before not in closed_words()
        goes = self.text(index + 1) in ("off", "out", "up", "down", "back", "straight", "away", "clear")
        return bool(led) and text.endswith("s") and singular(text) not in heads and goes

    def moves_by_itself(self, index: int) -> bool:
        """Whether a word is the verb of what a thing does: "just lifts off", "pulls out and lifts up"."""
        text, before = self.texts[index], self.text(index - 1)
        heads = phrase_table("verbs", "fasteners")["heads"]
        if not text.endswith("s") or before not in ("just", "simply", "and") or singular(text) in heads:
            return False
        acts = kinds(text).verb in phrase_table("verbs", "of_things")
        return acts and (before != "and" or self.text(index + 1) in word_set("particles"))

    @cached_property
    def utterances(self) -> tuple[Utterance, ...]:
        """The utterances in order."""
        return find_utterances(self.speech)

    @cached_property
    def utterance_of(self) -> tuple[int, ...]:
        """For every token the index of its utterance."""
        return tuple(n for n, utterance in enumerate(self.utterances) for _ in range(utterance.start, utterance.end))

    @cached_property
    def sighting_over(self) -> dict[int, Sighting]:
        """The thing named at a token."""
        return {i: sighting for sighting in self.sightings for i in range(sighting.start, sighting.end)}

    @cached_property
    def value_over(self) -> dict[int, ValueAt]:
        """The value said at a token."""
        return {i: value for value in self.values for i in range(value.start_token, value.end_token)}

    @cached_property
    def nouns(self) -> frozenset[str]:
        """Words that stand behind an article somewhere in the recording, or end the name of a thing."""
        after = {b for a, b in pairwise(self.texts) if a in word_set("leads_noun")}
        return frozenset(
            after | {self.texts[sighting.end - 1] for sighting in self.sightings if sighting.end - sighting.start > 1}
        )

    @cached_property
    def full_names(self) -> dict[str, tuple[tuple[int, str], ...]]:
        """Names of two words or more by their last word in the singular: (token, name)."""
        found: dict[str, list[tuple[int, str]]] = {}
        for sighting in self.sightings:
            name = display(self, sighting)
            if " " in name and "," not in name:
                found.setdefault(singular(name.split()[-1]), []).append((sighting.start, name))
        return {head: tuple(names) for head, names in found.items()}

    @cached_property
    def table_names(self) -> tuple[str, ...]:
        """The table's names that were said or that a torque belongs to."""
        said = [s.item for s in self.named if s.item] + [v.item for v in self.values if v.item and v.kind == "torque"]
        return tuple(dict.fromkeys(said))

    @cached_property
    def table_parts(self) -> tuple[str, ...]:
        """The parts that the table's fasteners hold: "chain guard" for the chain guard bolts."""
        ends = {*phrase_table("verbs", "fasteners")["heads"], *word_set("says_of_fastener")}
        found = []
        sized = [v.item for v in self.values if v.item and v.kind == "tool_size"]
        for name in (*self.table_names, *sized):
            words = name.split()
            while words and singular(words[-1]) in ends:
                words.pop()
            if 1 < len(words) < len(name.split()) and "," not in name:
                found.append(" ".join(words))
        return tuple(dict.fromkeys(found))

    @cached_property
    def machine(self) -> str:
        """The word for the whole machine: the last of its kind where it is said, else the one said most; "machine" where none is."""
        own = self.kind.casefold().split()[-1:]
        if own and own[0] in self.texts:
            return own[0]
        others = word_set("not_this_machine")
        part_of_kind = [text for text in sorted(set(self.texts)) if own and _ends_word(own[0], text)]
        if part_of_kind:
            return max(part_of_kind, key=len)
        count = Counter(
            text
            for before, text in pairwise(("", *self.texts))
            if text in word_set("machines") - {"motor"} and before not in others  # a motor is rather a part
        )
        for word in word_set("house_machines"):
            count[word] -= 1
        word = min(count, key=lambda word: (-count[word], word))
        return word if count[word] > 0 else "machine"

    @cached_property
    def engine(self) -> str:
        """ "engine" where the machine has one that is started; "" otherwise."""
        return "engine" if self.machine in word_set("engines") or "engine" in self.texts else ""

    def text(self, index: int) -> str:
        """A token's text, "" past either end."""
        return self.texts[index] if 0 <= index < len(self.texts) else ""

    def stops_before(self, index: int) -> bool:
        """Whether a token begins an utterance or follows punctuation or silence."""
        return index <= 0 or index >= len(self.texts) or index in self._stops

    @cached_property
    def _stops(self) -> frozenset[int]:
        parted = {
            utterance.start
            for utterance in self.utterances
            if utterance.parted >= 0.35 and self.text(utterance.start - 1) not in word_set("never_last")
        }
        return frozenset(parted | {i + 1 for i, text in enumerate(self.texts) if text in PUNCTUATION})


def _ends_word(word: str, text: str) -> bool:
    """Whether a word of the talk is the last part of a longer one: "chair" of "wheelchair", "mower" of "lawnmower"."""
    ends = 4 <= len(text) < len(word) - 2 and word.endswith(text) and kinds(text).noun
    return ends and text not in word_set("particles") and text not in short_names()


def display(spoken: Spoken, sighting: Sighting) -> str:
    """How a guide names a thing: the table's name, else the words said, written as the vocabulary writes them."""
    said = spoken.texts[sighting.start : sighting.end]
    if sighting.item is not None and singular(sighting.item.split(",")[0].split()[-1]) == singular(said[-1]):
        return sighting.item
    if key_of(" ".join(said)) == key_of(sighting.name) and sighting.name != sighting.name.lower():
        return sighting.name
    return " ".join(said).replace(" '", "'")


def is_plural(word: str) -> bool:
    """Whether a noun is a plural by its look."""
    return (word.endswith("s") and not word.endswith(("ss", "us", "is"))) or word in (
        "teeth",
        "feet",
        "people",
        "halves",
    )


def plural_of(name: str) -> str:
    """A name with its last word in the plural."""
    if is_plural(name.split()[-1]):
        return name
    return f"{name}es" if name.endswith(("s", "x", "ch", "sh")) else f"{name}s"


def is_nominal(word: str) -> bool:
    """Whether a word may stand inside a name."""
    if word in word_set("name_words"):
        return True
    if word in closed_words():
        return False
    what = kinds(word)
    return what.noun or (what.adjective and not what.adverb)


@cache
def closed_words() -> frozenset[str]:
    """Words that never stand inside a name."""
    names = (
        "pronouns",
        "subjects",
        "prepositions",
        "auxiliaries",
        "conjunctions",
        "adverbs",
        "fillers",
        "determiners",
        "particles",
        "units",
    )
    return frozenset().union(*(word_set(name) for name in names)) - word_set("name_words")
