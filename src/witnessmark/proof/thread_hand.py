"""Which way the thread of a fastener winds: by the speaker's own words, the table, or the joints known to be left-hand.

A thread is right-hand and tightens clockwise unless something says otherwise (data/left_hand_threads.csv).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal

from witnessmark.data import read_rows
from witnessmark.language.cues import Cues
from witnessmark.language.vocabulary import key_of, split_names
from witnessmark.proof.evidence import Evidence

Known = Literal["said", "table", "joint", "may be either", "usual"]
SAID_BEFORE, SAID_AFTER = 32, 10  # tokens within which the speaker's words on the thread are of what is turned
NAMED_BEFORE, NAMED_AFTER = 22, 6
TORQUE_AFTER = 10
SIZE_BEFORE = 8
REMEMBERED = 30  # tokens before words on the thread within which the fastener they are of is named


@dataclass(frozen=True, slots=True)
class Hand:
    """left: whether the thread is left-hand. known: by what. named: the fastener. place: where that stands."""

    left: bool
    known: Known
    named: str
    place: str = ""


@cache
def _joints() -> tuple[tuple[str, str, str, str], ...]:
    """(label, form, hand, source) of every name of every joint."""
    rows = read_rows("left_hand_threads.csv")
    return tuple(
        (row["joint"], form, row["hand"], row["source"])
        for row in rows
        for form in (row["joint"], *split_names(row["also_said"]))
    )


class Hands:
    """What is known of threads in one recording. words: the [direction] cues of its tokens."""

    def __init__(self, evidence: Evidence, words: Cues) -> None:
        self._evidence, self._words, self._speech = evidence, words, evidence.reading.speech
        self._named = _namings(evidence)
        self._joints = {
            start: (end, label)
            for start, end, label in self._speech.find((label, form) for label, form, _, _ in _joints())
        }
        self._statements = self._find_statements()

    def hand_at(self, start: int, end: int) -> Hand | None:
        """The thread turned where tokens start..end (exclusive) tell the direction; None where that is not clear."""
        said = self._said_near(start, end)
        item = self._item(start, end)
        if said is not None:
            return Hand(said[1], "said", item or "this thread", self._speech.said(said[0], said[2]))
        left = self._evidence.table.left_hand(item) if item else None
        if item and left is not None:
            return Hand(left, "table", item, _row_of(self._evidence, item))
        earlier = self._said_before(item, start)
        if earlier is not None and item is not None:
            return Hand(earlier[1], "said", item, self._speech.said(earlier[0], earlier[2]))
        return self._known_joint(item, start, end) or (Hand(False, "usual", item) if item is not None else None)

    def _find_statements(self) -> list[tuple[int, bool, int]]:
        """(start, left, end) of every "this is a left-hand thread"; "it's not a left-hand thread" says the contrary."""
        found = []
        for group, left in (("left_hand", True), ("right_hand", False)):
            for start, end in self._words.spans.get(group, ()):
                denied = left and self._words.has("negation", max(0, start - 4), start)
                found.append((start, left and not denied, end))
        return sorted(found)

    def _said_near(self, start: int, end: int) -> tuple[int, bool, int] | None:
        """The nearest words on the thread, where no other fastener is named since."""
        before = [each for each in self._statements if start - SAID_BEFORE <= each[0] and each[2] <= start]
        after = [each for each in self._statements if end <= each[0] <= end + SAID_AFTER]
        if before and not self._others_named(before[-1][2], start):
            return before[-1]
        return after[0] if after and not before and not self._others_named(end, after[0][0]) else None

    def _others_named(self, low: int, high: int) -> bool:
        return any(low <= start < high for start, _, _ in self._named) or any(
            self._speech.texts[i] in ("other", "another")
            or self._speech.texts[i : i + 2] in (("left", "one"), ("right", "one"))
            for i in range(low, high)
        )

    def _item(self, start: int, end: int) -> str | None:
        """The fastener in hand: the one whose torque follows at once, else the last one named, else the next."""
        for mention in self._evidence.mentions:
            if (
                mention.kind == "torque"
                and end <= mention.first <= end + TORQUE_AFTER
                and mention.item
                and not mention.rivals
            ):
                return mention.item
        sized = self.sized(start)
        if sized is not None:
            return sized
        before = [name for at, stop, name in self._named if start - NAMED_BEFORE <= at and stop <= start]
        if before:
            return before[-1]
        return next((name for at, _, name in self._named if end <= at <= end + NAMED_AFTER), None)

    def sized(self, start: int) -> str | None:
        """The fastener whose tool size was said just before: "nineteen on it and anticlockwise"."""
        near = [m for m in self._evidence.mentions if m.kind == "tool_size" and start - SIZE_BEFORE <= m.first < start]
        last = near[-1] if near else None
        return last.item if last is not None and last.row is not None and last.sure and not last.rivals else None

    def _known_joint(self, item: str | None, start: int, end: int) -> Hand | None:
        label = self._joint(item, start, end)
        if label is None:
            return None
        hand, source = next((hand, source) for known, _, hand, source in _joints() if known == label)
        return Hand(True, "joint" if hand == "always" else "may be either", item or label, source)

    def _joint(self, item: str | None, start: int, end: int) -> str | None:
        """The joint named near, or the one that the item's own name is."""
        near = [at for at in self._joints if start - NAMED_BEFORE <= at < start or end <= at <= end + NAMED_AFTER]
        if near:
            return self._joints[min(near, key=lambda at: abs(at - start))][1]
        names = self._names(item) if item else ()
        return next((label for label, form, _, _ in _joints() if any(_ends_with(name, form) for name in names)), None)

    def _names(self, item: str) -> Sequence[str]:
        rows = self._evidence.table.rows_of(item)
        return rows[0].names if rows else (item,)

    def _said_before(self, item: str | None, start: int) -> tuple[int, bool, int] | None:
        """What the speaker said of the item's thread at any time before."""
        found = None
        for at, left, stop in self._statements:
            named = [name for place, _, name in self._named if at - REMEMBERED <= place < at]
            if stop <= start and named and named[-1] == item:
                found = (at, left, stop)
        return found


def _namings(evidence: Evidence) -> tuple[tuple[int, int, str], ...]:
    """Where fasteners are named: (start, end, name)."""
    return tuple((s.start, s.end, s.item or s.name) for s in evidence.reading.sightings if s.kind == "fastener")


def _row_of(evidence: Evidence, item: str) -> str:
    row = next(row for row in evidence.table.rows_of(item) if row.left_hand is not None)
    return f"{row.origin.file} row {row.origin.row}"


def _ends_with(name: str, form: str) -> bool:
    key, wanted = key_of(name), key_of(form)
    return key[-len(wanted) :] == wanted
