"""Which item of the table each value is about.

Decided by words, order, recency and tool size, never by the value: choosing the row whose number fits would hide the very mistakes looked for.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.reading.figures import Talk
from witnessmark.reading.focus import Candidate, Focus
from witnessmark.reading.kinds import Measured
from witnessmark.reading.sightings import Sighting
from witnessmark.reading.sizes import SizeSaid
from witnessmark.specs.table import SpecRow, SpecTable
from witnessmark.units import dimension

ENOUGH = 0.55  # strength under which nothing is said to be meant
CLOSE = 0.93  # a rival as strong as this share of the strongest is as likely
SIZE_FITS, SIZE_DIFFERS = 0.45, -0.2
# Properties that a mention of each kind may be about, where the kinds of facts.json are coarser than the words of manuals.
SAME_KINDS = {"gap": {"gap", "length", "depth", "thickness"}, "length": {"gap", "length", "depth", "thickness"}, "depth": {"gap", "length", "depth"},
              "thickness": {"thickness", "gap", "length"}, "interval": {"interval"}, "distance": {"interval", "distance"}, "duration": {"interval", "duration"}}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Attribution:
    """What a value is about. row: the table's specification, None where only words were said."""

    item: str | None
    row: SpecRow | None
    rivals: tuple[str, ...] = ()
    sure: bool = False


class Attributor:
    """Attribution over one recording."""

    def __init__(self, talk: Talk, table: SpecTable, focus: Focus, sightings: Sequence[Sighting], sizes: Sequence[SizeSaid]) -> None:
        self._talk, self._table, self._focus, self._sightings, self._sizes = talk, table, focus, sightings, sizes

    def rows_for(self, kind: str, unit: str | None) -> list[SpecRow]:
        """Rows that a value of a kind, in a unit, can be about: decided by what is measured, not by how much."""
        kinds = SAME_KINDS.get(kind, {kind})
        found = [row for row in self._table.rows if row.kind in kinds or kind == "angle" and row.kind == "torque" and _has_angle(row)]
        if unit is None or kind in ("torque", "grade", "angle", "tool_size"):
            return found
        what = dimension(unit)
        return [row for row in found if not row.amounts or any(dimension(amount.unit) == what for amount in (*row.amounts, *row.alternatives))]

    def attribute(self, one: Measured, end: int, mask: Sequence[tuple[int, int]], limit: int | None) -> Attribution:
        """The item of one figure; `mask` and `limit` as Focus.strengths takes them."""
        if one.kind == "tool_size":
            rows = [row for row in self._table.rows if row.tool_size is not None]
        else:
            rows = self.rows_for(one.kind, one.unit)
        by_item = {row.item: row for row in reversed(rows)}
        if not by_item:
            return Attribution(self._named(one.figure.start, end), None)
        at = one.figure.start
        candidates = self._focus.strengths(at, end, tuple(by_item), mask, limit)
        if one.kind == "torque":
            candidates = self._weigh_sizes(candidates, by_item, at, end)
        best = candidates[0]
        if best.strength < ENOUGH:
            return Attribution(self._named(at, end), None)
        rivals = tuple(c.item for c in candidates[1:] if c.strength >= CLOSE * best.strength)
        near = self._focus.strengths(at, end, (best.item,), mask, limit, reach=14)[0].strength
        return Attribution(best.item, by_item[best.item], rivals, near >= ENOUGH)

    def _weigh_sizes(self, candidates: Sequence[Candidate], rows: dict[str, SpecRow], at: int, end: int) -> list[Candidate]:
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
                bonus = SIZE_FITS if any(size.system == said.system and size.size == said.size for size in sizes) else SIZE_DIFFERS
            fade = 0.5 ** (abs(at - said.start) / 20)
            weighed.append(Candidate(candidate.item, candidate.strength + bonus * fade))
        return sorted(weighed, key=lambda candidate: -candidate.strength)

    def _named(self, at: int, end: int) -> str | None:
        """The words said for the thing, where the table has no row: the fastener named nearest."""
        things = [s for s in self._sightings if s.kind == "fastener" or "takes_torque:yes" in s.traits]
        near = [s for s in things if at - 25 <= s.start < at or end <= s.start <= end + 10]
        if not near:
            return None
        return min(near, key=lambda s: at - s.end if s.start < at else s.start - end).name


def _has_angle(row: SpecRow) -> bool:
    return any(dimension(amount.unit) == "angle" for amount in row.amounts)
