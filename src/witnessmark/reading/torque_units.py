"""The unit of a torque said without one."""

from collections import Counter
from collections.abc import Sequence

from witnessmark.language.cues import find_cues
from witnessmark.reading.figures import Talk
from witnessmark.reading.kinds import Measured
from witnessmark.reading.relations import said_again

SMALL = frozenset({"lbf·in", "ozf·in", "kgf·cm", "cN·m"})
AT_ONCE = 8  # tokens within which a bare figure is in the unit of the one before


class TorqueUnits:
    """The units over one recording. things: tokens where a telling word of some torque row's names is said."""

    def __init__(self, talk: Talk, found: Sequence[Measured], things: Sequence[int]) -> None:
        self._talk, self._found, self._things = talk, found, things
        self._torques = [i for i, one in enumerate(found) if one.kind == "torque"]
        self._conversions = {
            j: i for i, j in zip(self._torques, self._torques[1:], strict=False) if self._converts(i, j)
        }
        first_said = Counter(
            found[i].unit or "" for i in self._torques if found[i].unit is not None and i not in self._conversions
        )
        # Inch-pounds are always said; who leaves the unit out thinks in a bigger one, where they have one.
        bigger = {unit: count for unit, count in first_said.items() if unit not in SMALL} or first_said
        self._usual = max(bigger, key=lambda unit: (bigger[unit], unit), default="N·m")
        self._second = next(
            (unit for unit, _ in first_said.most_common() if unit != self._usual),
            "lbf·ft" if self._usual == "N·m" else "N·m",
        )
        self._of_item: dict[str, str] = {}
        self._resolved: dict[int, str] = {}
        self._cues = find_cues(talk.texts, "bare")

    def unit(self, index: int, item: str | None) -> str:
        """The unit of the index-th figure, a torque.

        Where it was not said: never the unit that the speaker converts it to in the same breath; else the unit in which the item's torque was
        told before; else that of the figure just said; else the unit in which the speaker thinks, which is said most.
        """
        one = self._found[index]
        unit = (
            one.unit
            or self._converted(index)
            or self._converting(index)
            or self._of_item.get(item or "")
            or self._just_said(index)
            or self._usual
        )
        self._resolved[index] = unit
        if item is not None and index not in self._conversions:
            self._of_item[item] = unit
        return unit

    def _converts(self, i: int, j: int) -> bool:
        earlier, later = self._found[i], self._found[j]
        if earlier.unit is None and later.figure.start - earlier.figure.end > AT_ONCE:
            return False
        return (
            later.unit is not None
            and earlier.unit != later.unit
            and said_again(self._talk, earlier.figure.end, later.figure.start, later.figure.end, self._things)
        )

    def _converted(self, index: int) -> str | None:
        later = next((j for j, i in self._conversions.items() if i == index), None)
        if later is None:
            return None
        said = self._just_said(index) or self._usual
        return said if self._found[later].unit != said else self._second

    def _converting(self, index: int) -> str | None:
        """ "120, which is 88 if yours reads American": a bare figure that says the one before in the other unit."""
        before = [i for i in self._torques if i < index]
        figure = self._found[index].figure
        if not before or figure.start - self._found[before[-1]].figure.end > 12:
            return None
        start = self._found[before[-1]].figure.end
        if not (
            self._talk.cues.has("restates", start, figure.start) and self._cues.has("other_unit", start, figure.end + 8)
        ):
            return None
        unit = self._resolved.get(before[-1], self._usual)
        return self._second if unit == self._usual else self._usual

    def _just_said(self, index: int) -> str | None:
        before = [i for i in self._torques if i < index and i not in self._conversions]
        if not before or self._found[index].figure.start - self._found[before[-1]].figure.end > AT_ONCE:
            return None
        return self._found[before[-1]].unit
