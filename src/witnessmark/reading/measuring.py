"""Bare figures of what is being measured: ohms after "meter on", psi after "the tyres", rpm after "idling at".

A word that tells what is measured leads up to the figure, nothing is tightened or undone between, and the table has a row of that kind: the
figure is then of that kind, in the unit that the speaker uses for it, else in the row's.
"""

from bisect import bisect_left, insort
from collections.abc import Sequence

from witnessmark.language.cues import Cues
from witnessmark.reading.figures import Figure, Talk, stands_between
from witnessmark.reading.focus import Focus, View
from witnessmark.specs.table import SpecRow, SpecTable
from witnessmark.units import dimension

GOES_ON = 12  # tokens over which the next figure is of what was just measured
REACH = 22  # tokens before a figure in which a word tells what is measured
PUT = 8  # tokens in which it is told between what a meter measures
# Kinds of rows that each group of cues speaks of.
GROUPS = {
    "electric": ("resistance", "voltage", "current", "capacitance"),
    "pressure": ("pressure",),
    "gap": ("gap",),
    "length": ("length", "thickness", "depth", "gap"),
    "speed": ("speed",),
    "temperature": ("temperature",),
}
MEASURED = frozenset(kind for kinds in GROUPS.values() for kind in kinds)


class MeasuringRules:
    """What is measured at each moment of one recording. fasteners: tokens where one is named."""

    def __init__(
        self, talk: Talk, table: SpecTable, focus: Focus, figures: Sequence[Figure], fasteners: Sequence[int]
    ) -> None:
        self._talk, self._focus, self._fasteners = talk, focus, fasteners
        self._cues: Cues = talk.measuring_cues
        self._rows = [row for row in table.rows if row.kind in MEASURED and row.amounts]
        self._said = [(figure.start, label) for figure in figures for label in figure.labels[:1]]
        torque = focus.sayings(row.item for row in table.rows if row.kind == "torque")
        # Tokens where something is named that takes a torque and is not measured.
        self._torqued = sorted({*fasteners, *torque} - set(focus.sayings(row.item for row in self._rows)))
        self._told: list[tuple[int, str]] = []

    def note(self, figure: Figure, kind: str) -> None:
        """Tells of a figure whose kind is known: what is measured goes on being measured."""
        if kind in MEASURED:
            insort(self._told, (figure.end, kind))

    def of(self, figure: Figure) -> tuple[str, str] | None:
        """Kind and unit of a bare figure that tells of what is being measured; None where nothing is."""
        last = self._talk.text(figure.number_end - 1)
        if last.isalpha() and last.endswith("s") and last != "six":
            return None  # "the housing tens"
        kinds = self._kinds(figure)
        rows = {row.item: row for row in reversed(self._rows) if row.kind in kinds}
        if not rows:
            return None
        view = View(figure.start, figure.end, reach=2 * REACH)
        row = rows[self._focus.strengths(view, tuple(rows))[0].item]
        assert row.kind is not None
        return row.kind, self._unit(figure.start, row)

    def _kinds(self, figure: Figure) -> frozenset[str]:
        """Kinds that the nearest word of measuring tells of, where nothing is tightened or undone since."""
        at = figure.start
        near = [
            (end, kinds)
            for group, kinds in GROUPS.items()
            for _, end in self._cues.between(group, max(0, at - REACH), at)
        ]
        i = bisect_left(self._told, (at + 1, ""))
        if i and at - self._told[i - 1][0] <= GOES_ON:
            near.append((self._told[i - 1][0], (self._told[i - 1][1],)))
        if figure.form == "decimal":
            near = [(end, kinds) for end, kinds in near if kinds != ("speed",)]  # "idling at six fifty, I got 14.3"
        if not near:
            return frozenset()
        last = max(end for end, _ in near)
        if self._worked(last, at) or self._named_after(figure.end):
            return frozenset()
        return frozenset(kind for end, kinds in near if end == last for kind in kinds)

    def _worked(self, start: int, end: int) -> bool:
        """Whether the speaker turned to something else: a fastener, a wrench, the next step."""
        cues = self._talk.cues
        # "meter from the plug to the case": what is named there is where the meter is put
        put = PUT if self._talk.text(start - 1) in ("from", "between", "across") else 0
        return (
            stands_between(self._fasteners, start + put, end)
            or cues.has("tighten", start, end)
            or cues.has("loosen", start, end)
            or self._cues.has("turning", start, end)
        )

    def _named_after(self, end: int) -> bool:
        """ "seven on the clamp"."""
        return self._talk.text(end) in ("on", "for") and stands_between(self._torqued, end, end + 5)

    def _unit(self, at: int, row: SpecRow) -> str:
        """The unit that the speaker says nearest for what the row measures, else the row's own."""
        what = dimension(row.amounts[0].unit)
        said = [(start, label) for start, label in self._said if dimension(label) == what]
        if not said:
            return row.amounts[0].unit
        i = bisect_left(said, (at, ""))
        return said[i - 1][1] if i else said[0][1]
