"""What is being talked about at each moment: how strongly each item of the table stands before the listener.

An item comes to mind by the words of its names, the more the rarer a word is among the table's names, and fades with every word that follows.
Tool sizes help, since each item has its own; values never do (choosing the item whose number fits would hide the mistakes looked for).
"""

from bisect import bisect_left
from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache, cached_property
from math import log, sqrt

from witnessmark.data import read_toml
from witnessmark.language.speech import Speech
from witnessmark.language.vocabulary import key_of
from witnessmark.specs.table import SpecTable

# Words just said weigh most, and what the talk has been about for the last minutes stays in mind: half-lives in tokens, share of the latter.
HALF_LIFE, LONG_HALF_LIFE, LONG_SHARE = 12.0, 90.0, 0.35
# "18 for the rod nut" names what the value is for, though more may be said between; a word that merely follows counts little.
AFTER_NAMED, AFTER_NAMED_HALF_LIFE = 1.15, 14.0
AFTER, AFTER_HALF_LIFE = 0.3, 5.0
REACH_BEFORE, REACH_AFTER, HEAD_REACH = 400, 30, 25
FENCED = 0.5  # what was said before the last value, where something is named since
DONE = 0.6  # what was said of an item before its value was told
WHOLE = 0.15  # how much a name said whole goes before one of which some words were said
OTHER_HEAD = 0.65  # items of another kind of fastener than the one just named
OWN_HEAD_REACH = 14
AGAIN = 1.25  # in a recap, what was told before
SIBLING, OTHER_ONE = 1.35, 1.8
OTHER_PLACE, PLACE_REACH = 0.7, 40  # an item of the rear in a recording about the front
OTHER_NUMBER = 0.5  # one thing where several were named
SAID_TOGETHER, PAIR_REACH = 1.35, 12  # "the roller bolt gets": the items that are so named in few words, just before
JOINT = "-"
TITLE = 0.12  # words of the recording's title, all the time
NAMING = frozenset({"on", "for", "into", "at", "in", "what"})


@cache
def place_words() -> dict[str, str]:
    """Every word of data/place_words.toml by the word it is read as."""
    rows: list[list[str]] = read_toml("place_words.toml")["same"]
    return {word: row[0] for row in rows for word in row}


@cache
def places() -> frozenset[str]:
    """Every word of place that has an opposite."""
    return frozenset(word for pair in opposites() for word in pair)


@cache
def word_set(name: str) -> frozenset[str]:
    """One of the lists of data/place_words.toml."""
    return frozenset(read_toml("place_words.toml")[name])


@cache
def kind_words() -> frozenset[str]:
    """Words of a name that the unit of a value says by itself."""
    return word_set("kind_words")


@cache
def opposites() -> tuple[tuple[str, str], ...]:
    """Pairs of words of place that exclude each other."""
    rows: list[list[str]] = read_toml("place_words.toml")["opposite"]
    return tuple((one, other) for one, other in rows)


def canonical(lemmas: Sequence[str], words: Container[str] = ()) -> tuple[str, ...]:
    """Lemmas with words of place folded together: "top" is "upper", and so is "up here".

    words: of the table's names; "back" is a place only before one of them or behind "the", else it is an adverb ("push it back") or the far
    side of one thing ("on the back of the caliper").
    """
    folded = place_words()
    found = [folded.get(lemma, lemma) for lemma in lemmas]
    for i, lemma in enumerate(lemmas):
        following = lemmas[i + 1] if i + 1 < len(lemmas) else ""
        if following in ("here", "there", "top", "below") and lemma in ("up", "down"):
            found[i] = "upper" if lemma == "up" else "lower"
        if (
            lemma == "back"
            and i > 0
            and words
            and (following == "of" or not (lemmas[i - 1] == "the" or following in words))
        ):
            found[i] = lemma
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Candidate:
    """One item with its strength at a moment."""

    item: str
    strength: float


@dataclass(frozen=True)
class View:
    """From where the items are looked at: a value at tokens at..end.

    mask: token spans that do not count. limit: token from which what follows does not count. fence: token of the value before, when something is
    named since. done: item -> token of its last value. reach: tokens that count before.
    siblings: items likely next, because their fellow was just told. again: the values are said once more.
    other_one: "the bottom one" was said. unsaid: words of names that the unit of the value says by itself ("temperature").
    number: whether the value is of several ("they get"), of one ("that one gets"), None where that is not told.
    """

    at: int
    end: int
    mask: Sequence[tuple[int, int]] = ()
    limit: int | None = None
    fence: int = 0
    done: Mapping[str, int] = field(default_factory=dict)
    reach: int = REACH_BEFORE
    siblings: frozenset[str] = frozenset()
    again: bool = False
    other_one: bool = False
    unsaid: frozenset[str] = frozenset()
    number: bool | None = None


@dataclass(frozen=True)
class Focus:
    """The items of a table against the words of a recording. lemmas: of all tokens. names: item -> its names' words, empty words
    left out. title: words of the recording's title. foreign: tokens that name something else ("o-ring" is no ring of the table).
    plurals: tokens in the plural. many: items named in the plural.
    """

    lemmas: tuple[str, ...]
    names: dict[str, tuple[tuple[str, ...], ...]]
    title: frozenset[str] = frozenset()
    foreign: frozenset[int] = frozenset()
    plurals: frozenset[int] = frozenset()
    many: frozenset[str] = frozenset()

    @cached_property
    def rarity(self) -> dict[str, float]:
        """Weight of each word of the names: high where few items have it."""
        holders: dict[str, set[str]] = {}
        for item, names in self.names.items():
            for name in names:
                for word in name:
                    holders.setdefault(word, set()).add(item)
        count = max(1, len(self.names))
        return {word: log(1 + count / len(items)) for word, items in holders.items()}

    @cached_property
    def places(self) -> dict[str, list[int]]:
        """Tokens where each word of the names is said; a compound ("left-hand") where its parts are said together."""
        found: dict[str, list[int]] = {word: [] for word in self.rarity}
        compounds = [word for word in found if JOINT in word]
        for i, lemma in enumerate(self.lemmas):
            if i in self.foreign:
                continue
            if lemma in found:
                found[lemma].append(i)
            for compound in compounds:
                parts = compound.split(JOINT)
                if lemma == parts[0] and list(self.lemmas[i : i + len(parts)]) == parts:
                    found[compound].append(i)
        return found

    @cached_property
    def siblings(self) -> dict[str, frozenset[str]]:
        """Of each item, those that share most of its words, half of them or more: the top and the bottom nut of one link."""
        words = {item: {word for name in names for word in name} for item, names in self.names.items()}
        found = {}
        for item, own in words.items():
            shared = {
                other: len(own & theirs)
                for other, theirs in words.items()
                if other != item and 2 * len(own & theirs) >= min(len(own), len(theirs))
            }
            found[item] = frozenset(other for other, count in shared.items() if count == max(shared.values()))
        return found

    @cached_property
    def _elsewhere(self) -> dict[str, frozenset[str]]:
        """Of each item, words of place in its first name that are the opposite of one in the title: "rear" where the title says "front"."""
        against = {
            there
            for pair in opposites()
            for here, there in (pair, pair[::-1])
            if here in self.title and there not in self.title
        }
        return {item: frozenset(names[0]) & against if names else frozenset() for item, names in self.names.items()}

    def _out_of_place(self, item: str, view: "View") -> bool:
        """Whether an item is of the other end of the machine than the recording, and that end was not spoken of just now."""
        words = self._elsewhere[item]
        return bool(words) and not any(
            view.at - PLACE_REACH <= i < view.end + 12 for word in words for i in self.places[word]
        )

    def sayings(self, items: Iterable[str]) -> list[int]:
        """Tokens where a telling word of the items' names is said, not one that most names share."""
        telling = {word for item in items for name in self.names[item] for word in name if self.rarity[word] > log(3)}
        return sorted(i for word in telling for i in self.places[word])

    def strengths(self, view: "View", items: Sequence[str]) -> list[Candidate]:
        """The items by strength for one value, strongest first."""
        weights = {word: self._weight(word, view) for item in items for name in self.names[item] for word in name}
        head = self._head(view)
        pair = self._pair(view)
        plural = True if self._named_plural(view) else view.number
        found = []
        for item in items:
            done = view.done.get(item, -1)
            strength = max(
                (
                    self._strength(
                        tuple(word for word in name if word not in view.unsaid) or name,
                        weights,
                        -1 if view.again else done,
                    )
                    for name in self.names[item]
                ),
                default=0.0,
            )
            strength *= AGAIN if view.again and done >= 0 else 1.0
            fits = head is None or head in self._heads[item] or self._own_head_said(item, view)
            strength *= (
                (1.0 if fits else OTHER_HEAD)
                * ((OTHER_ONE if view.other_one else SIBLING) if item in view.siblings else 1.0)
                * (OTHER_NUMBER if plural is not None and plural != (item in self.many) else 1.0)
            )
            strength *= SAID_TOGETHER if pair in self._pairs[item] else 1.0
            strength *= OTHER_PLACE if self._out_of_place(item, view) else 1.0
            found.append(Candidate(item, strength))
        return sorted(found, key=lambda candidate: -candidate.strength)

    def _named_plural(self, view: "View") -> bool:
        """Whether what is named right after, "on the pulleys", is more than one."""
        if view.end >= len(self.lemmas) or self.lemmas[view.end] not in ("on", "for"):
            return False
        stop = min(view.end + 5, len(self.lemmas) if view.limit is None else view.limit)
        return any(i in self.plurals and self.named_between(i, i + 1) for i in range(view.end, stop))

    def named_between(self, start: int, end: int) -> bool:
        """Whether a telling word of some item stands in tokens start..end (exclusive)."""
        return bisect_left(self._telling, start) < bisect_left(self._telling, end)

    @cached_property
    def _heads(self) -> dict[str, frozenset[str]]:
        """Of each item, the last words of its names: bolt, nut, screw."""
        return {item: frozenset(name[-1] for name in names) for item, names in self.names.items()}

    def _own_head_said(self, item: str, view: "View") -> bool:
        """Whether an item that is no bolt, nut or screw by its names is named by its last word just before the value: "two clips"."""
        own = self._heads[item] - word_set("fastener_heads")
        return any(view.at - OWN_HEAD_REACH <= i < view.at for word in own for i in self.places[word])

    @cached_property
    def _pairs(self) -> dict[str, frozenset[tuple[str, str]]]:
        """Of each item, every word of its names with the head behind it: "roller bolt" of "billhook roller bolt"."""
        return {
            item: frozenset((word, name[-1]) for name in names for word in name[:-1])
            for item, names in self.names.items()
        }

    @cached_property
    def _all_pairs(self) -> frozenset[tuple[str, str]]:
        return frozenset(pair for pairs in self._pairs.values() for pair in pairs)

    def _pair(self, view: "View") -> tuple[str, str] | None:
        """The last two words before the value that together name some item; None where it is named behind the value."""
        follows = self.lemmas[view.end] if view.end < len(self.lemmas) else ""
        if follows in NAMING and self.named_between(view.end, view.end + 5):
            return None
        for i in range(view.at - 2, max(view.fence - 1, view.at - PAIR_REACH, -1), -1):
            pair = (self.lemmas[i], self.lemmas[i + 1])
            if pair in self._all_pairs and not _masked(i, view.mask):
                return pair
        return None

    def _head(self, view: "View") -> str | None:
        """The kind of fastener spoken of: named right after behind "on the", else last before."""
        kinds = word_set("fastener_heads")
        for i in range(view.end, min(view.end + 6, len(self.lemmas) if view.limit is None else view.limit)):
            if self.lemmas[i] in kinds and any(self.lemmas[j] in NAMING for j in range(max(view.end, i - 4), i)):
                return self.lemmas[i]
        return next(
            (
                self.lemmas[i]
                for i in range(view.at - 1, max(-1, view.at - HEAD_REACH), -1)
                if self.lemmas[i] in kinds and not _masked(i, view.mask)
            ),
            None,
        )

    @cached_property
    def _telling(self) -> list[int]:
        return self.sayings(self.names)

    def _strength(self, name: tuple[str, ...], weights: dict[str, tuple[int, float]], done: int) -> float:
        total = sum(self.rarity[word] for word in name)
        if not total:
            return 0.0
        present = sum(
            self.rarity[word] * weight * (DONE if 0 <= place < done else 1.0)
            for word in name
            for place, weight in [weights[word]]
        )
        return float(present / sqrt(total) * (present / total) ** WHOLE)

    def _weight(self, word: str, view: "View") -> tuple[int, float]:
        """Where one word was said that counts, and how present it is: the nearest saying before by its distance, one that follows while close."""
        places = self.places[word]
        best = (-1, TITLE if word in self.title else 0.0)
        for i in reversed(places[bisect_left(places, view.at - view.reach) : bisect_left(places, view.at)]):
            if not _masked(i, view.mask):
                weight = (1 - LONG_SHARE) * 0.5 ** ((view.at - i) / HALF_LIFE) + LONG_SHARE * 0.5 ** (
                    (view.at - i) / LONG_HALF_LIFE
                )
                weight *= FENCED if i < view.fence else 1.0
                best = max(best, (i, weight), key=lambda pair: pair[1])
                break
        stop = view.end + REACH_AFTER if view.limit is None else min(view.limit, view.end + REACH_AFTER)
        for i in places[bisect_left(places, view.end) : bisect_left(places, stop)]:
            if not _masked(i, view.mask):
                return max(best, (i, self._after(i, view.end)), key=lambda pair: pair[1])
        return best

    def _after(self, i: int, end: int) -> float:
        """A word after the value counts most in "on the ...", "for the ...": there the speaker names what the value is for."""
        distance = i - end
        # "33 up front", "fifty rear"
        placed = (
            self.lemmas[i] in places()
            and all(self.lemmas[j] in ("up", "out", "upper", "lower") for j in range(end, i))
            and (not self.named_between(i + 1, i + 2) or self.lemmas[i + 1] in places())
        )
        named = placed or any(self.lemmas[j] in NAMING for j in range(max(end, i - 4), i))
        weight, half_life = (AFTER_NAMED, AFTER_NAMED_HALF_LIFE) if named else (AFTER, AFTER_HALF_LIFE)
        return weight * float(0.5 ** (distance / half_life))


def _masked(i: int, mask: Sequence[tuple[int, int]]) -> bool:
    return any(start <= i < end for start, end in mask)


def focus_on(table: SpecTable, speech: Speech, title: str, others: Iterable[tuple[int, int]] = ()) -> Focus:
    """The focus over a whole recording with a title. others: tokens where things of the vocabulary are named that are no fasteners."""
    names: dict[str, tuple[tuple[str, ...], ...]] = {}
    for row in table.rows:
        keys = (_name_words(name) for name in row.names)
        names[row.item] = tuple(dict.fromkeys((*names.get(row.item, ()), *(key for key in keys if key))))
    spoken = canonical(
        speech.lemmas,
        {part for found in names.values() for name in found for word in name for part in word.split(JOINT)},
    )
    plurals = frozenset(
        i
        for i, (text, lemma) in enumerate(zip(speech.texts, speech.lemmas, strict=True))
        if text != lemma and text.endswith("s")
    )
    known = [
        frozenset(part for word in name for part in word.split(JOINT)) for found in names.values() for name in found
    ]
    foreign = frozenset(
        i
        for start, end in others
        if end - start > 1 and not any(known_name >= set(spoken[start:end]) for known_name in known)
        for i in range(start, end)
    ) | _doings(speech.texts)
    many = frozenset(row.item for row in table.rows if any(name.endswith("s") for name in row.names))
    return Focus(spoken, names, frozenset(canonical(key_of(title))), foreign, plurals, many)


def _doings(texts: Sequence[str]) -> frozenset[int]:
    """Tokens that tell what something does and name nothing: "self-locking nuts", "they only lock the once"."""
    return frozenset(
        i
        for i in range(1, len(texts))
        if texts[i - 1] == "self"
        or (texts[i - 1] in word_set("between_doer_and_verb") and texts[i - 2] in word_set("doers"))
    )


def _name_words(name: str) -> tuple[str, ...]:
    """The telling words of a name, a hyphenated one as one word."""
    empty = word_set("empty")
    words = []
    for written in name.split():
        parts = [part for part in canonical(key_of(written)) if part not in empty and part.isalnum()]
        if parts:
            words.append(JOINT.join(parts))
    return tuple(words)
