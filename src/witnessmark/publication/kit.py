"""The kit of a job: tools with their sizes, parts, supplies and fasteners."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from witnessmark.language.speech import Speech
from witnessmark.language.tokens import SENTENCE_END
from witnessmark.language.vocabulary import key_of, tokens_of
from witnessmark.publication.kit_lexicon import is_form
from witnessmark.publication.namings import NOT_MEANT, Naming, find_namings
from witnessmark.publication.sizes import joined_sizes, usual_tool
from witnessmark.reading.model import Mention, Reading
from witnessmark.specs.table import SpecTable

KINDS = ("tool", "part", "supply", "fastener")
OFTEN = 2
"""Namings from which on a bare head, or a part that nothing is done to, is taken for a thing of the job."""


@dataclass(frozen=True, slots=True)
class KitItem:
    """A thing to have at hand. size: sizes said, joined ("10, 12, 14 mm").

    first: seconds of its first naming. said: the captions' words there. new: told to be new, so to be bought.
    """

    name: str
    size: str | None
    first: float
    said: str
    new: bool = False


@dataclass(frozen=True)
class Kit:
    """All that the job takes, each list in the order in which things are first named."""

    tools: tuple[KitItem, ...]
    parts: tuple[KitItem, ...]
    supplies: tuple[KitItem, ...]
    fasteners: tuple[KitItem, ...]

    @property
    def bought(self) -> tuple[KitItem, ...]:
        """Parts and fasteners told to be new, by their first naming."""
        return tuple(sorted((each for each in (*self.parts, *self.fasteners) if each.new), key=lambda each: each.first))

    @property
    def other_parts(self) -> tuple[KitItem, ...]:
        """Parts that are not told to be new."""
        return tuple(each for each in self.parts if not each.new)

    @property
    def other_fasteners(self) -> tuple[KitItem, ...]:
        """Fasteners that are not told to be new."""
        return tuple(each for each in self.fasteners if not each.new)


def find_kit(reading: Reading, table: SpecTable) -> Kit:
    """The kit of a recording. table: its specifications, by whose names fasteners are listed."""
    namings = [one for one in find_namings(reading, table) if not one.passing]
    groups = [group for group in _grouped(namings) if _belongs(group)]
    lists = {kind: _items(reading.speech, [group for group in groups if group[0].kind == kind]) for kind in KINDS}
    tools = _with_loose_sizes(lists["tool"], namings, reading.mentions)
    return Kit(tools, lists["part"], lists["supply"], _with_items(lists["fastener"], reading.mentions))


def _with_loose_sizes(
    tools: Sequence[KitItem], namings: Sequence[Naming], mentions: Sequence[Mention]
) -> tuple[KitItem, ...]:
    """The tools, and sizes that no tool was named with put to the tool they usually go with."""
    tied = {one.size for one in namings if one.size}
    loose: dict[str, list[Mention]] = {}
    for mention in mentions:
        if mention.size and mention.size not in tied and mention.role not in NOT_MEANT:
            loose.setdefault(usual_tool(mention.size.system), []).append(mention)
    listed = list(tools)
    for name, found in loose.items():
        place = next((i for i, tool in enumerate(listed) if key_of(tool.name) == key_of(name)), None)
        sizes = [mention.size for mention in found if mention.size]
        if place is None:
            listed.append(KitItem(name, joined_sizes(sizes), found[0].start, found[0].said))
        else:
            own = [one.size for one in namings if one.size and one.key == key_of(name)]
            listed[place] = replace(listed[place], size=joined_sizes([*own, *sizes]))
    return tuple(sorted(listed, key=lambda tool: tool.first))


def _with_items(fasteners: Sequence[KitItem], mentions: Sequence[Mention]) -> tuple[KitItem, ...]:
    """The fasteners named, and those of the table that a torque or a size is said of."""
    listed = {key_of(each.name) for each in fasteners}
    more: dict[str, KitItem] = {}
    for mention in mentions:
        row = mention.row
        if (
            row is None
            or mention.kind != "torque"
            or mention.rivals
            or mention.role in NOT_MEANT
            or key_of(row.item) in listed
        ):
            continue
        more.setdefault(row.item, KitItem(row.item, None, mention.start, mention.said))
    return tuple(sorted((*fasteners, *more.values()), key=lambda each: each.first))


def _grouped(namings: Sequence[Naming]) -> list[list[Naming]]:
    """Namings of one thing together: one item of the table, or a name that holds the other's words and ends like it."""
    groups: list[list[Naming]] = []
    for one in sorted(namings, key=lambda each: (each.item is None, -len(each.key), each.start)):
        home = next((group for group in groups if _same(group[0], one)), None)
        if home is None:
            groups.append([one])
        else:
            home.append(one)
    return sorted(groups, key=lambda group: min(each.start for each in group))


def _same(longer: Naming, shorter: Naming) -> bool:
    if longer.item is not None and longer.item == shorter.item:
        return True
    if longer.kind != shorter.kind or longer.size or shorter.size:
        return longer.key == shorter.key
    names = {longer.key, key_of(longer.item or "")}
    return any(name and shorter.key and name[-1] == shorter.key[-1] and set(shorter.key) <= set(name) for name in names)


def _belongs(group: Sequence[Naming]) -> bool:
    """Whether a thing is of the job: used, fitted, removed or bought, and not named by the way."""
    best = group[0]
    if not all(one.generic for one in group):
        # A name of one word is told so often in passing that something must be done to the part, or it be named again.
        return best.kind != "part" or len(best.key) > 1 or any(one.worked for one in group) or len(group) >= OFTEN
    if best.kind == "fastener":
        return False
    if best.kind == "part":
        return len(group) > OFTEN and any(one.worked for one in group)
    return len(group) >= OFTEN or any(one.listed or one.size for one in group)


def _items(speech: Speech, groups: Sequence[Sequence[Naming]]) -> tuple[KitItem, ...]:
    """One entry a name: two groups may turn out to be one thing, such as a fluid told by two grades."""
    found: dict[tuple[str, ...], KitItem] = {}
    for group in groups:
        item = _item(speech, group)
        found.setdefault(key_of(item.name), item)
    return tuple(found.values())


def _item(speech: Speech, group: Sequence[Naming]) -> KitItem:
    first = min(group, key=lambda one: one.start)
    sizes = joined_sizes(one.size for one in group if one.size)
    said = speech.said(first.start, first.end)
    return KitItem(_name(speech, group), sizes, speech.tokens[first.start].start, said, any(one.new for one in group))


def _name(speech: Speech, group: Sequence[Naming]) -> str:
    """The words said, in the plural where they ever are; the table's name for its fasteners.

    The vocabulary's name stands where only half a name was said (`allen`, `prop`, `pads` of brake pads).
    """
    best = group[0]
    if best.item is not None and best.kind == "fastener":
        return best.item
    alike = [one for one in group if one.key == best.key]
    said = min((_written(speech, one) for one in alike), key=lambda text: not text.endswith("s"))
    whole = key_of(best.canonical)
    if any(character.isdigit() for character in said) and best.kind == "supply":
        return best.canonical
    if len(best.key) == 1 and best.item is None and _is_half(best, said, whole):
        plural = said.endswith("s") and not best.canonical.endswith(("s", "x"))
        return best.canonical + "s" * plural
    return said


def _is_half(best: Naming, said: str, whole: Sequence[str]) -> bool:
    clipped = any(word.startswith(best.key[0]) and (len(whole) > 1 or word != best.key[0]) for word in whole)
    return clipped or (best.kind == "tool" and len(whole) > 1 and not is_form(said, best.canonical))


def _written(speech: Speech, one: Naming) -> str:
    """A naming as the captions spell it, without their full stops and the capital that only a sentence gives it."""
    tokens = speech.tokens[one.start : one.end]
    words = [speech.transcript.words[i].text for i in dict.fromkeys(token.word for token in tokens)]
    if tokens_of(" ".join(words)) == tuple(token.text for token in tokens):
        opens = one.start == 0 or speech.texts[one.start - 1] in SENTENCE_END
        plain = [word.strip(".,;:!?\"'()") for word in words]
        return " ".join([_uncapped(plain[0]) if opens else plain[0], *plain[1:]])
    return " ".join(token.text for token in tokens if token.text != "'s").replace(" - ", "-")


def _uncapped(word: str) -> str:
    return word.lower() if word[1:].islower() and not word[:2].endswith("-") else word
