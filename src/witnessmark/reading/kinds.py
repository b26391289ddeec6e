"""What each figure measures."""

import re
from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.language.cues import Cues, find_cues
from witnessmark.reading.figures import Figure, Talk
from witnessmark.reading.sightings import Sighting
from witnessmark.reading.sizes import SizeRules, SizeSaid
from witnessmark.units import dimension

# What a unit's dimension makes of a figure when nothing nearer tells.
BY_DIMENSION = {
    "torque": "torque", "pressure": "pressure", "volume": "capacity", "angle": "angle", "temperature": "temperature", "mass": "mass",
    "voltage": "voltage", "resistance": "resistance", "rotation": "speed", "speed": "speed", "money": "money", "length": "length", "force": "mass",
}  # fmt: skip
DISTANCES = frozenset({"km", "mi"})
SHARED_REACH = 14  # tokens over which a bare figure takes the unit of one that stands in parallel


@dataclass(frozen=True, slots=True)
class Measured:
    """A figure whose kind is known. labels[0] is its unit; () for counts and years. inferred: the unit was not said with it."""

    figure: Figure
    kind: str
    unit: str | None
    inferred: bool
    size: SizeSaid | None = None


class KindRules:
    """Kinds of all figures of a recording: first those with a unit, then the bare ones, which look at their neighbours."""

    def __init__(self, talk: Talk, figures: Sequence[Figure], sightings: Sequence[Sighting]) -> None:
        self._talk, self._figures = talk, figures
        self._free: Cues = find_cues(talk.texts, "after")
        self._fasteners = sorted(s.start for s in sightings if s.kind == "fastener" or "takes_torque:yes" in s.traits)
        self._sizes = SizeRules(talk, sightings)
        self._read: dict[int, Measured] = {}
        self._told: list[int] = []  # figures whose unit was said
        self._torques: list[int] = []

    def read(self) -> list[Measured]:
        """One entry a figure, in order, and the sizes said as codes among them."""
        codes = self._sizes.codes()
        pending = [(figure.start, figure) for figure in self._figures] + [(code.start, code) for code in codes]
        for _, thing in sorted(pending, key=lambda pair: pair[0]):
            if isinstance(thing, SizeSaid):
                self._sizes.note(thing)
                self._read[thing.start] = _coded(thing)
            else:
                self._with_unit(thing)
        self._told = sorted(start for start, found in self._read.items() if not found.inferred)
        self._torques = sorted(start for start, found in self._read.items() if found.kind == "torque")
        for figure in self._figures:
            if figure.start not in self._read:
                self._read[figure.start] = self._bare(figure)
        return [self._read[start] for start in sorted(self._read)]

    def _with_unit(self, figure: Figure) -> None:
        size = self._sizes.size_of(figure)
        if size:
            self._read[figure.start] = Measured(figure, "tool_size", size.system, not figure.labels, size)
        elif figure.labels:
            kind, unit = self._unit_kind(figure)
            self._read[figure.start] = Measured(figure, kind, unit, False)

    def _unit_kind(self, figure: Figure) -> tuple[str, str]:
        """Kind and unit of a figure with a unit said; several candidate units are told apart by the talk around."""
        by_kind = {dimension(label): label for label in reversed(figure.labels)}
        if "torque" in by_kind and len(by_kind) > 1 or figure.short and "torque" in by_kind:
            if self._tightens(figure):
                return "torque", by_kind["torque"]
            by_kind.pop("torque")
        if not by_kind:
            return "count", figure.labels[0]
        if "volume" in by_kind and "length" in by_kind:
            liquid = self._talk.text(figure.end) == "of" or self._talk.kind_cues.has("liquid", *self._talk.clause(figure.start, 8, 8))
            by_kind.pop("length" if liquid else "volume")
        what, unit = next((what, label) for label in figure.labels for what in [dimension(label)] if what in by_kind)
        if unit in DISTANCES or what == "time":
            return self._repeats(figure, "distance" if unit in DISTANCES else "duration"), unit
        return (self._length_kind(figure) if what == "length" else BY_DIMENSION.get(what, "count")), unit

    def _repeats(self, figure: Figure, otherwise: str) -> str:
        low, high = self._talk.clause(figure.start, 8, 4)
        return "interval" if self._talk.kind_cues.has("interval", low, high) else otherwise

    def _length_kind(self, figure: Figure) -> str:
        """The kind whose word stands nearest."""
        low, high = self._talk.clause(figure.start, 10, 8)
        best, kind = 99, "length"
        for name in ("gap", "thickness", "depth", "length"):
            for start, end in self._talk.kind_cues.between(name, low, high + 1):
                distance = figure.start - end + 1 if start < figure.start else start - figure.end
                if distance < best:
                    best, kind = distance, name
        return kind

    def _tightens(self, figure: Figure) -> bool:
        """Whether the talk is of tightening: a bare "pounds" or "newtons" is then torque said short."""
        low, high = self._talk.clause(figure.start, 14, 8)
        if self._talk.text(figure.end) == "of":
            return False
        return self._talk.cues.has("tighten", low, high) or self._gets(figure) and self._fastener_near(figure.start - 18, figure.end + 8)

    def _gets(self, figure: Figure) -> bool:
        """Whether "gets", "to", "that's" or the like leads up to the figure."""
        start = figure.start
        while start > 0 and self._talk.text(start - 1) in ("uh", "um", "about", "only", "just", "like", "a", "at", "exactly", "an"):
            start -= 1
        return any(end == start for _, end in self._talk.cues.between("gets", start - 4, start))

    def _fastener_near(self, low: int, high: int) -> bool:
        return bisect_left(self._fasteners, max(0, low)) < bisect_left(self._fasteners, high)

    def _bare(self, figure: Figure) -> Measured:
        """A figure with no unit: torque by how it is led up to, else what its nearest neighbour with a unit measures, else a count."""
        if self._is_year(figure):
            return Measured(figure, "year", None, True)
        if self._stands_free(figure):
            neighbour = self._neighbour(figure)
            if self._bare_torque(figure, neighbour):
                insort(self._torques, figure.start)
                return Measured(figure, "torque", None, True)
            if neighbour is not None and neighbour.kind not in ("torque", "tool_size", "money", "duration", "year", "count", "distance"):
                return Measured(figure, neighbour.kind, neighbour.unit, True)
        return Measured(figure, "count", None, True)

    def _is_year(self, figure: Figure) -> bool:
        whole = figure.low == figure.low.to_integral_value() and not figure.is_range
        return whole and 1950 <= figure.low <= 2049 and re.fullmatch(r"\d{4}|twenty|nineteen", self._talk.text(figure.start)) is not None

    def _stands_free(self, figure: Figure) -> bool:
        """Whether no noun follows that the figure would count, and nothing before makes it a number of something."""
        before = self._talk.text(figure.start - 1)
        if before in ("number", "code", "part", "#", "page", "step", "figure", "chapter", "cylinder", "line", "bank", "point", "gear", "position", "model", "o'clock", "one"):
            return False
        following = self._talk.text(figure.end)
        return following in ("", ".", ",", "?", "!", ")", ";") or any(start == figure.end for start, _ in self._free.between("free", figure.end, figure.end + 3))

    def _neighbour(self, figure: Figure) -> Measured | None:
        """The nearest figure with a unit said, what follows before what went before."""
        starts = self._told
        low, high = self._talk.clause(figure.start, SHARED_REACH + 8, SHARED_REACH)
        i = bisect_left(starts, figure.end)
        after = self._read[starts[i]] if i < len(starts) and starts[i] < high else None
        before = self._read[starts[i - 1]] if i > 0 and starts[i - 1] >= low else None
        if after is not None and after.kind != "tool_size":
            return after
        return before if before is not None and before.kind != "tool_size" else None

    def _bare_torque(self, figure: Figure, neighbour: Measured | None) -> bool:
        if figure.form in ("fraction",):
            return False
        kind = neighbour.kind if neighbour is not None else None
        if kind not in (None, "torque", "angle", "money", "duration", "count", "year", "distance"):
            return False
        talk = self._talk
        low, high = talk.clause(figure.start, 14, 8)
        points = 2 * self._gets(figure)
        points += talk.cues.has("tighten", low, high)
        points += 2 * self._named_after(figure)
        points += self._fastener_near(figure.start - 12, figure.start)
        points += 2 * (kind == "torque") + self._torque_before(figure)
        points -= 2 * talk.cues.has("measured", low, figure.start) + 3 * (talk.text(figure.end) == "of")
        return points >= 4

    def _named_after(self, figure: Figure) -> bool:
        """"18 for these", "21 on the rod nut"."""
        if self._talk.text(figure.end) not in ("on", "for", "in"):
            return False
        pointed = self._talk.text(figure.end + 1) in ("these", "those", "them", "this", "that", "each", "both", "all", "it")
        return pointed or self._fastener_near(figure.end, figure.end + 6)

    def _torque_before(self, figure: Figure) -> int:
        """1 where a torque was said within the last forty tokens."""
        return int(bisect_left(self._torques, figure.start - 40) < bisect_left(self._torques, figure.start))


def _coded(code: SizeSaid) -> Measured:
    figure = Figure(code.start, code.end, code.end, code.size, code.size, (), False, True, "cardinal")
    return Measured(figure, "tool_size", code.system, False, code)
