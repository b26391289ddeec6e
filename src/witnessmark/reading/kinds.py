"""What each figure measures."""

import re
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, replace

from witnessmark.reading.bare import BareRules
from witnessmark.reading.declared import declared_unit
from witnessmark.reading.figures import Figure, Talk, plain_figure, stands_between
from witnessmark.reading.focus import Focus
from witnessmark.reading.measuring import MeasuringRules
from witnessmark.reading.sightings import Sighting, fastener_places
from witnessmark.reading.sizes import SizeRules, SizeSaid
from witnessmark.reading.standing import Standing
from witnessmark.specs.table import SpecTable
from witnessmark.units import dimension

# What a unit's dimension makes of a figure when nothing nearer tells.
BY_DIMENSION = {
    "torque": "torque", "pressure": "pressure", "volume": "capacity", "angle": "angle", "temperature": "temperature", "mass": "mass",
    "voltage": "voltage", "resistance": "resistance", "rotation": "speed", "speed": "speed", "money": "money", "length": "length", "force": "mass",
    "current": "current", "capacitance": "capacitance", "flow": "flow",
}  # fmt: skip
DISTANCES = frozenset({"km", "mi"})
OTHERWISE_TOLD = frozenset(
    {
        "pressure",
        "capacity",
        "temperature",
        "voltage",
        "resistance",
        "current",
        "capacitance",
        "flow",
        "speed",
        "gap",
        "thickness",
        "depth",
        "length",
        "angle",
        "mass",
    }
)
LEADING_UP = frozenset(["is", "'s", "it", "that", "of", "about", "would", "be", "'d"])
PLACES = frozenset({"front", "rear", "back", "cold", "hot", "warm"})  # "forty five front and fifty at the back"
SHARED_REACH = 14  # tokens over which a bare figure takes the unit of one that stands in parallel


@dataclass(frozen=True, slots=True)
class Measured:
    """A figure whose kind is known. unit: None where it is not known yet or has none. inferred: the unit was not said with it.

    drive: the square drive of a wrench.
    """

    figure: Figure
    kind: str
    unit: str | None
    inferred: bool
    size: SizeSaid | None = None
    drive: bool = False


class KindRules:
    """Kinds of all figures of a recording: first those with a unit, then the bare ones, which look at their neighbours.

    declared: the unit of torque that the speaker told for all of it.
    """

    def __init__(
        self,
        talk: Talk,
        figures: Sequence[Figure],
        sightings: Sequence[Sighting],
        things: Sequence[int],
        table: SpecTable,
        focus: Focus,
    ) -> None:
        self._talk, self._figures = talk, figures
        self._fasteners = fastener_places(talk.speech, sightings)
        self._tools = {s.start for s in sightings if s.kind == "tool"}
        self._standing = Standing(talk, figures, sightings, self._fasteners, things, focus.title)
        self._sizes = SizeRules(talk, figures, sightings, self._standing)
        self._measuring = MeasuringRules(talk, table, focus, figures, self._fasteners)
        self._read: dict[int, Measured] = {}
        self._told: list[int] = []  # figures whose unit was said
        attached = {i for figure in figures for i in range(figure.number_end, figure.end)}
        # Torque units said apart from any figure, by their starts and ends; starts of all figures.
        apart = [
            u
            for u in talk.units
            if not u.needs_number and u.start not in attached and dimension(u.labels[0]) == "torque"
        ]
        self._apart_at, self._apart_by = {unit.start: unit for unit in apart}, {unit.end: unit for unit in apart}
        self._starts = sorted(figure.start for figure in figures)
        self.declared = declared_unit(talk, apart)
        self._bare_rules = BareRules(talk, figures, sightings, self._standing, self.declared)

    def read(self) -> list[Measured]:
        """One entry a figure, in order, and the sizes said as codes among them."""
        pending: list[Figure | SizeSaid] = [*self._figures, *self._sizes.codes()]
        for thing in sorted(pending, key=lambda thing: thing.start):
            if isinstance(thing, SizeSaid):
                self._sizes.note(thing)
                self._note(_coded(thing))
            else:
                self._with_unit(thing)
        self._told = sorted(start for start, found in self._read.items() if not found.inferred)
        for figure in self._figures:
            if figure.start not in self._read:
                self._note(self._bare(figure))
        return [self._with_other_end(self._read[start]) for start in sorted(self._read)]

    def _with_other_end(self, found: Measured) -> Measured:
        """ "From thirteen eight to fifteen six": the first end of a range is what the second is."""
        end = found.figure.partner
        other = self._read.get(end.start) if end is not None and end.start > found.figure.start else None
        if other is None or found.kind != "count" or not found.inferred:
            return found
        return replace(found, kind=other.kind, unit=other.unit)

    def _note(self, found: Measured) -> None:
        self._read[found.figure.start] = found
        self._bare_rules.note(found.kind, found.figure)
        self._measuring.note(found.figure, found.kind)

    def _with_unit(self, figure: Figure) -> None:
        size = self._sizes.size_of(figure)
        if size:
            self._note(Measured(figure, "tool_size", size.system, not figure.labels, size))
        elif figure.labels:
            kind, unit = self._unit_kind(figure)
            self._note(Measured(figure, kind, unit, False, drive=self._sizes.is_drive(figure)))

    def _unit_kind(self, figure: Figure) -> tuple[str, str]:
        """Kind and unit of a figure with a unit said; several candidate units are told apart by the talk around."""
        by_kind = {dimension(label): label for label in reversed(figure.labels)}
        if "mass" in by_kind and self._talk.kind_cues.has("weight", figure.start - 4, figure.start):
            return BY_DIMENSION["mass"], by_kind["mass"]
        if ("torque" in by_kind and len(by_kind) > 1) or (figure.short and "torque" in by_kind):
            if "N" in figure.labels or self._tightens(figure):
                return "torque", by_kind["torque"]
            by_kind.pop("torque")
        if (
            "pressure" in by_kind
            and by_kind["pressure"] in figure.short
            and not self._talk.kind_cues.has("pressure", *self._talk.clause(figure.start, 10, 6))
        ):
            by_kind.pop("pressure")
        if not by_kind:
            return "count", figure.labels[0]
        if "temperature" in by_kind and "angle" in by_kind:
            warm = self._talk.kind_cues.has("temperature", *self._talk.clause(figure.start, 8, 6))
            by_kind.pop("angle" if warm else "temperature")
        if "volume" in by_kind and "length" in by_kind:
            of = self._talk.texts[figure.end : figure.end + 2]
            of_place = of in (("of", "the"), ("of", "that"), ("of", "its"))  # "within five mil of the edge"
            of_liquid = of[:1] == ("of",) or self._talk.kind_cues.has(
                "liquid", *self._talk.clause(figure.start, 12, 10)
            )
            liquid = of_liquid and not of_place
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
        """Whether the talk is of tightening: a bare "pounds" or "kilos" is then torque said short."""
        low, high = self._talk.clause(figure.start, 14, 8)
        if self._talk.text(figure.end) == "of" or figure.end in self._tools:
            return False  # "three pounds of grease", "a three pound hammer"
        return self._talk.cues.has("tighten", low, high) or (
            self._standing.led(figure.start) and stands_between(self._fasteners, figure.start - 18, figure.end + 8)
        )

    def _bare(self, figure: Figure) -> Measured:
        """A figure with no unit: torque or size by how it is led up to, else what its nearest neighbour with a unit measures, else a count."""
        if self._is_year(figure):
            return Measured(figure, "year", None, True)
        trailing = self._trailing_unit(figure) or self._leading_unit(figure)
        if trailing:
            return Measured(figure, "torque", trailing, False)
        beside = self._talk.text(figure.end) in PLACES
        measured = self._measuring.of(figure) if beside or self._stands_alone(figure) else None
        if measured:
            return Measured(figure, measured[0], measured[1], True)
        alike = self._parallel(figure)
        if alike is not None:
            return Measured(figure, alike.kind, alike.unit, True)
        neighbour = self._neighbour(figure)
        if neighbour is not None and self._parted(figure, neighbour.figure):
            neighbour = None
        kind = neighbour.kind if neighbour is not None else None
        decided = self._bare_rules.decide(figure, kind in OTHERWISE_TOLD or kind == "money")
        if decided == "torque":
            return Measured(figure, "torque", None, True)
        if decided == "tool_size":
            return self._sized(figure)
        if neighbour is not None and kind in OTHERWISE_TOLD and self._stands_alone(figure):
            return Measured(figure, neighbour.kind, neighbour.unit, True)
        return Measured(figure, "count", None, True)

    def _stands_alone(self, figure: Figure) -> bool:
        return figure.form != "fraction" and self._bare_rules.stands_free(figure)

    def _parallel(self, figure: Figure) -> Measured | None:
        """What is no torque and led up to alike: "the big syringe gets twenty millilitres. The small one gets about eight"."""
        i = bisect_left(self._told, figure.start)
        before = self._read[self._told[i - 1]] if i else None
        if before is None or before.kind not in OTHERWISE_TOLD or figure.start - before.figure.end > SHARED_REACH:
            return None
        led = self._standing.led(figure.start) and self._standing.led(before.figure.start)
        return before if led and self._stands_alone(figure) and not self._parted(figure, before.figure) else None

    def _parted(self, figure: Figure, other: Figure) -> bool:
        """Whether a fastener is named between two figures: "120 millilitres, filler bolt thirteen"."""
        return stands_between(self._fasteners, min(figure.end, other.end), max(figure.start, other.start))

    def _sized(self, figure: Figure) -> Measured:
        size = self._sizes.bare_size(figure)
        return Measured(figure, "tool_size", size.system, True, size)

    def _trailing_unit(self, figure: Figure) -> str | None:
        """ "lock nut fifty, that's inch pounds": a torque unit said after, with no other figure between."""
        if figure.form == "fraction" or self._talk.text(figure.end) == "of":
            return None
        for start in range(figure.end + 1, figure.end + 11):
            unit = self._apart_at.get(start)
            if unit is None or stands_between(self._starts, figure.end, start):
                continue
            before = self._talk.texts[start - 2 : start]
            if before[-1] in (",", "in") or before == ("that", "'s"):
                return unit.labels[0]
        return None

    def _leading_unit(self, figure: Figure) -> str | None:
        """ "which in inch pounds is thirteen": a torque unit said just before."""
        for end in range(max(0, figure.start - 3), figure.start):
            unit = self._apart_by.get(end)
            if unit is not None and all(word in LEADING_UP for word in self._talk.texts[end : figure.start]):
                return unit.labels[0]
        return None

    def _is_year(self, figure: Figure) -> bool:
        whole = figure.low == figure.low.to_integral_value() and not figure.is_range
        return (
            whole
            and 1950 <= figure.low <= 2049
            and re.fullmatch(r"\d{4}|twenty|nineteen", self._talk.text(figure.start)) is not None
        )

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


def _coded(code: SizeSaid) -> Measured:
    return Measured(plain_figure(code.start, code.end, code.size), "tool_size", code.system, False, code)
