"""Which item of the table each value is about.

Decided by words, order, recency and tool size, never by the value: choosing the row whose number fits would hide the very mistakes looked for.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from witnessmark.language.speech import breaks_after
from witnessmark.reading.figures import Talk
from witnessmark.reading.focus import Candidate, Focus, View, kind_words, word_set
from witnessmark.reading.grades import GradeSaid, grade_parts
from witnessmark.reading.kinds import Measured
from witnessmark.reading.sightings import Sighting
from witnessmark.reading.sizes import SizeSaid
from witnessmark.specs.table import SpecRow, SpecTable
from witnessmark.units import dimension

ENOUGH = 0.2  # strength under which nothing is said to be meant
SURE = 0.55  # strength of the last fourteen tokens alone that makes an item one named in the same breath
# A rival as strong as this share of the strongest is as likely; LOOSE where the item was not named just now.
CLOSE, LOOSE = 0.93, 0.8
CLEAR = 0.75  # share of the strongest over which another item comes near
FAINT = 0.3  # strength under which an item is hardly more than a guess
SIBLING_REACH = 25  # tokens after a torque in which its fellow is likely next
SIZE_FITS, SIZE_DIFFERS = 0.45, -0.2
NAMED_REACH = 3  # tokens before a value in which the thing that it is told of is named
COUNT_REACH = 8  # the same where it is counted
NUMBER_REACH = 4  # tokens before a value in which a pronoun tells of how many it is
SEVERAL = frozenset({"they", "those", "these", "them", "ones", "pair", "em"})
ONE = frozenset({"bolt", "nut", "screw", "plug", "stud", "fitting"})  # "this one" may be one of several
COUNTED = frozenset({"two", "three", "four", "both"})
_BREAKS = frozenset({".", ",", "?", "!", "then", "now", "and", "that", "this", "it"})
SELDOM = frozenset(
    {"capacitance", "current", "flow", "resistance", "speed"}
)  # the only row of such a kind is hardly mistaken
FAR = frozenset({"ft", "yd", "m", "km", "mi", "MΩ"})
# Properties that a mention of each kind may be about, where the kinds of facts.json are coarser than the words of manuals.
SAME_KINDS = {"gap": {"gap", "length", "depth", "thickness"}, "length": {"gap", "length", "depth", "thickness"}, "depth": {"gap", "length", "depth"},
              "thickness": {"thickness", "gap", "length"}}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Attribution:
    """What a value is about. row: the table's specification, None where only words were said.

    rivals: items as likely. sure: named in the same breath. clear: no other item comes near. faint: hardly more than a guess.
    """

    item: str | None
    row: SpecRow | None
    rivals: tuple[str, ...] = ()
    sure: bool = False
    clear: bool = False
    faint: bool = False


class Attributor:
    """Attribution over one recording."""

    def __init__(
        self, talk: Talk, table: SpecTable, focus: Focus, sightings: Sequence[Sighting], sizes: Sequence[SizeSaid]
    ) -> None:
        self._talk, self._table, self._focus, self._sightings, self._sizes = talk, table, focus, sightings, sizes
        self._last: dict[str, int] = {}  # kind -> token after its last value
        self._done: dict[str, int] = {}
        self._told: list[str] = []  # items whose torque was told, the last at the end
        self._pointing: tuple[str, str] | None = None

    def rows_for(self, kind: str, unit: str | None) -> list[SpecRow]:
        """Rows that a value of a kind, in a unit, can be about: decided by what is measured, not by how much."""
        kinds = SAME_KINDS.get(kind, {kind})
        found = [
            row
            for row in self._table.rows
            if row.kind in kinds or (kind == "angle" and row.kind == "torque" and _has_angle(row))
        ]
        if unit is None or kind in ("torque", "grade", "angle", "tool_size"):
            return found
        return [
            row
            for row in found
            if not row.amounts or any(_comparable(unit, amount.unit) for amount in (*row.amounts, *row.alternatives))
        ]

    def attribute(
        self, one: Measured, mask: Sequence[tuple[int, int]], limit: int | None, taken_back: bool = False
    ) -> Attribution:
        """The item of one figure. mask, limit: as in View. Figures must come in order. taken_back: the next figure is said in its place."""
        if one.kind == "tool_size":
            rows = [row for row in self._table.rows if row.tool_size is not None]
        else:
            rows = self.rows_for(one.kind, one.unit)
        by_item = {row.item: row for row in reversed(rows)}
        at, end = one.figure.start, one.figure.end
        found = self._pointed(at, end, by_item) if one.kind == "torque" else None
        found = found or (
            self._strongest(one, by_item, mask, limit) if by_item else Attribution(self._named(at, end, limit), None)
        )
        if taken_back:
            return found  # the item still waits for its value
        self._last[one.kind] = self._claimed(end)
        if one.kind == "torque" and found.row is not None:
            self._done[found.row.item] = end
            self._told = [*(item for item in self._told if item != found.row.item), found.row.item]
        return found

    def grade_of(self, said: GradeSaid, one: Measured, limit: int | None) -> Attribution:
        """The item of a grade: only rows of its series can be meant, and where there is one, it is."""
        series = {name for name, _ in grade_parts(said.grade)}
        rows = {
            row.item: row
            for row in self._table.rows
            if row.kind == "grade" and row.grade and series & {name for name, _ in grade_parts(row.grade)}
        }
        if len(rows) == 1:
            (row,) = rows.values()
            return Attribution(row.item, row, (), True, True)
        return self._strongest(one, rows, (), limit) if rows else Attribution(None, None)

    def _strongest(
        self, one: Measured, by_item: dict[str, SpecRow], mask: Sequence[tuple[int, int]], limit: int | None
    ) -> Attribution:
        at, end = one.figure.start, one.figure.end
        stop = self._break_after(end, min(len(self._talk.texts), end + 30 if limit is None else limit))
        stop = next((i for i in range(end + 3, stop) if self._talk.text(i) in ("then", "now", "next", "okay")), stop)
        torque = one.kind == "torque"
        view = View(
            at,
            end,
            mask,
            stop,
            self._fence(one.kind, at, end, stop),
            self._done if torque else {},
            siblings=self._siblings(at) if torque else frozenset(),
            again=torque and self._talk.bare_cues.has("recap", at - 45, at),
            other_one=self._other_one(at),
            unsaid=frozenset() if torque or one.kind in ("tool_size", "grade") else kind_words(),
            number=self._number(at, end) if torque or one.kind == "tool_size" else None,
        )
        candidates = self._focus.strengths(view, tuple(by_item))
        if torque:
            candidates = self._weigh_sizes(candidates, by_item, at, end)
        best = candidates[0]
        if best.strength < ENOUGH:
            return Attribution(self._named(at, end, limit), None)
        sure = self._focus.strengths(replace(view, reach=14), (best.item,))[0].strength >= SURE
        rivals = tuple(c.item for c in candidates[1:] if c.strength >= (CLOSE if sure else LOOSE) * best.strength)
        clear = len(candidates) < 2 or candidates[1].strength <= CLEAR * best.strength
        only = len(candidates) == 1 and one.kind in SELDOM
        return Attribution(best.item, by_item[best.item], rivals, sure, clear, best.strength < FAINT and not only)

    def _other_one(self, at: int) -> bool:
        """ "the bottom one", "the other one": a fellow of what was just spoken of."""
        return any(
            self._talk.text(i) in ("one", "ones") and self._talk.text(i - 1) not in ("this", "that", "new", "old")
            for i in range(at - 12, at)
        )

    def _number(self, at: int, end: int) -> bool | None:
        """Whether the value is told of several, "they get", or of one, "that bolt gets"; None where neither is said just before."""
        words = self._talk.texts
        heads = (
            i
            for i in range(at - 1, max(0, at - COUNT_REACH) - 1, -1)
            if self._talk.lemma(i) in word_set("fastener_heads")
        )
        head = next(heads, None)
        if head is not None and head in self._focus.plurals and at - head <= NAMED_REACH:
            return True  # "those are the bracket bolts, 17 mm"
        if head is not None and head not in self._focus.plurals and words[head - 1] in ("one", "single"):
            return False  # "one screw on the outside, 7 mm"
        for i in range(at - 1, max(0, at - NUMBER_REACH) - 1, -1):
            if words[i] in ("that", "this") and words[i + 1] in ONE:
                return False
            if words[i] in SEVERAL or (words[i] in COUNTED and words[i - 1] in ("the", "those", "these", "them")):
                return True
            if words[i] in _BREAKS:
                break
        told_behind = words[end : end + 1] in (("on",), ("for",)) and self._talk.text(end + 1) in SEVERAL
        return True if told_behind or words[end : end + 1] in (("each",), ("apiece",)) else None

    def _claimed(self, end: int) -> int:
        """Token after the words that name what a value was for: "120 on the wheel bolts" has claimed the wheel bolts."""
        if self._talk.text(end) not in ("on", "for"):
            return end
        return max((i + 1 for i in range(end, end + 6) if self._focus.named_between(i, i + 1)), default=end)

    def _siblings(self, at: int) -> frozenset[str]:
        """Fellows of the item just told: "the top one gets 32 and the bottom one 35"."""
        return (
            self._focus.siblings[self._told[-1]]
            if self._told and at - self._last.get("torque", 0) <= SIBLING_REACH
            else frozenset()
        )

    def _fence(self, kind: str, at: int, end: int, limit: int) -> int:
        """Token before which words count less: they were said for another value, if this one has words of its own."""
        if self._talk.text(end) in ("on", "for") and self._focus.named_between(end, min(limit, end + 6)):
            return at
        last = self._last.get(kind, 0)
        return last if self._focus.named_between(last, at) else 0

    def _break_after(self, end: int, limit: int) -> int:
        return next((i + 1 for i in range(end, limit) if breaks_after(self._talk.speech, i)), limit)

    def _pointed(self, at: int, end: int, by_item: dict[str, SpecRow]) -> Attribution | None:
        """ "65 over there and 50 over here": the item before the last one, and the last. "the same 60": the last again."""
        if self._focus.named_between(self._last.get("torque", 0), at) or not self._told:
            return None
        words = self._talk.texts[end : end + 2]
        item = None
        if self._talk.text(at - 1) == "same":
            item = self._told[-1]
        elif words in (("over", "there"), ("over", "here")) and len(self._told) > 1:
            self._pointing = self._pointing or (self._told[-2], self._told[-1])
            item = self._pointing[1] if "here" in words else self._pointing[0]
        return Attribution(item, by_item[item], (), True, True) if item in by_item else None

    def _weigh_sizes(
        self, candidates: Sequence[Candidate], rows: dict[str, SpecRow], at: int, end: int
    ) -> list[Candidate]:
        """A size said near the value speaks for the items that have it."""
        near = [size for size in self._sizes if at - 30 <= size.start < at or end <= size.start <= end + 8]
        if not near:
            return list(candidates)
        said = min(near, key=lambda size: at - size.end if size.start < at else 2 * (size.start - end))
        weighed = []
        for candidate in candidates:
            sizes = rows[candidate.item].tool_sizes
            bonus = 0.0
            if sizes:
                bonus = (
                    SIZE_FITS
                    if any(size.system == said.system and size.size == said.size for size in sizes)
                    else SIZE_DIFFERS
                )
            fade = 0.5 ** (abs(at - said.start) / 20)
            weighed.append(Candidate(candidate.item, candidate.strength + bonus * fade))
        return sorted(weighed, key=lambda candidate: -candidate.strength)

    def _named(self, at: int, end: int, limit: int | None) -> str | None:
        """The words said for the thing, where the table has no row: the fastener named nearest; where there is no table yet, any part."""
        fasteners = [s for s in self._sightings if s.kind == "fastener" or "takes_torque:yes" in s.traits]
        return self._nearest(fasteners, at, end, limit, 25) or (
            None if self._table.rows else self._nearest(self._sightings, at, end, limit, 40)
        )

    def _nearest(self, things: Sequence[Sighting], at: int, end: int, limit: int | None, reach: int) -> str | None:
        stop = end + 11 if limit is None else min(limit, end + 11)
        near = [
            s
            for s in things
            if s.kind not in ("tool", "supply") and (at - reach <= s.start < at or end <= s.start < stop)
        ]
        if not near:
            return None
        return min(near, key=lambda s: at - s.end if s.start < at else s.start - end).name


def _comparable(said: str, printed: str) -> bool:
    """Whether one unit can be said for the other: of one dimension, and nobody tells a gap in feet or a coil in megohms."""
    return dimension(said) == dimension(printed) and (said in FAR) == (printed in FAR)


def _has_angle(row: SpecRow) -> bool:
    return any(dimension(amount.unit) == "angle" for amount in row.amounts)
