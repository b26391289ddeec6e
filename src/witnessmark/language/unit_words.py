"""Units as they are said, found in a sequence of tokens through one trie of data/units.toml."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache

from witnessmark.units import Unit, units


@dataclass(frozen=True, slots=True)
class UnitWord:
    """A place where a unit may be said.

    start, end: the tokens it takes up, end exclusive. labels: every unit that the words may mean, in the order of
    data/units.toml. short_labels: those of them that are a longer unit said short ("pounds" for lbf·ft).
    needs_number: the words are a unit only directly after a number ("bar", "foot").
    doubtful: they are ordinary words even there ("in", "a").
    """

    start: int
    end: int
    labels: tuple[str, ...]
    short_labels: tuple[str, ...]
    needs_number: bool
    doubtful: bool

    @property
    def short(self) -> bool:
        """Whether some unit among the labels is said short here."""
        return bool(self.short_labels)


@dataclass(slots=True)
class _Node:
    """A place in the trie: what one more token leads to, and the units whose form ends here, by label in data order."""

    following: dict[str, "_Node"] = field(default_factory=dict)
    needs_number: dict[str, bool] = field(default_factory=dict)
    short: set[str] = field(default_factory=set)
    doubtful: bool = False


def match_units(tokens: Sequence[str]) -> tuple[UnitWord, ...]:
    """Every place where a unit may be said, in order and without overlap; the longest form wins.

    tokens: lower case, hyphens inside words split. What stands before is not looked at: see `UnitWord.needs_number`.
    """
    found = []
    i = 0
    while i < len(tokens):
        match = _longest(tokens, i)
        if match:
            found.append(match)
        i = match.end if match else i + 1
    return tuple(found)


def _longest(tokens: Sequence[str], start: int) -> UnitWord | None:
    node, end, longest = _trie(), start, None
    while end < len(tokens) and (following := node.following.get(tokens[end])):
        node, end = following, end + 1
        if node.needs_number:
            longest = UnitWord(
                start,
                end,
                labels=tuple(node.needs_number),
                short_labels=tuple(label for label in node.needs_number if label in node.short),
                needs_number=all(node.needs_number.values()),
                doubtful=node.doubtful,
            )
    return longest


@cache
def _trie() -> _Node:
    root = _Node()
    for unit in units().values():
        for form, needs_number in _forms(unit):
            node = root
            for token in form.split():
                node = node.following.setdefault(token, _Node())
            # A form listed twice under one unit needs a number only if it does in every list.
            node.needs_number[unit.label] = node.needs_number.get(unit.label, True) and needs_number
            if form in unit.short:
                node.short.add(unit.label)
            node.doubtful |= form in unit.doubtful
    return root


def _forms(unit: Unit) -> Iterator[tuple[str, bool]]:
    """The forms in which a unit is said, and whether each needs a number before it."""
    for form in unit.spoken:
        yield form, False
    for form in (*unit.after_number, *unit.short, *unit.doubtful):
        yield form, True
