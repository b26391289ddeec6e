"""The unit of a torque said without one."""

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from witnessmark.reading.declared import Declared
from witnessmark.reading.figures import Talk
from witnessmark.reading.kinds import Measured
from witnessmark.reading.relations import said_again

SMALL = frozenset({"lbf·in", "ozf·in", "kgf·cm", "cN·m"})
MOSTLY = 3  # times as often as the bigger units together: then the small one is the speaker's own
CONVERTED_REACH = 12  # tokens after a torque in which a bare one may say it in the other unit
AT_ONCE = 8  # tokens within which a bare figure is in the unit of the one before


class TorqueUnits:
    """The units over one recording. things: tokens where a telling word of some torque row's names is said."""

    def __init__(self, talk: Talk, found: Sequence[Measured], things: Sequence[int], declared: Declared | None) -> None:
        self._talk, self._found, self._things = talk, found, things
        self._torques = [i for i, one in enumerate(found) if one.kind == "torque"]
        self._conversions = {j: i for i, j in pairwise(self._torques) if self._converts(i, j)}
        self._converted_by = {i: j for j, i in self._conversions.items()}
        self._originals = [i for i in self._torques if i not in self._conversions]
        first_said = Counter(
            found[i].unit or "" for i in self._torques if found[i].unit is not None and i not in self._conversions
        )
        # Inch-pounds are mostly said; who leaves the unit out thinks in a bigger one, where they have one and not by a slip.
        bigger = {unit: count for unit, count in first_said.items() if unit not in SMALL}
        small = sum(count for unit, count in first_said.items() if unit in SMALL)
        if not bigger or small > MOSTLY * sum(bigger.values()):
            bigger = dict(first_said)
        self._usual = max(bigger, key=lambda unit: (bigger[unit], unit), default="N·m")
        self._usual = declared.unit if declared is not None else self._usual
        self._second = next(
            (unit for unit, _ in first_said.most_common() if unit != self._usual),
            "lbf·ft" if self._usual == "N·m" else "N·m",
        )
        self._of_item: dict[str, str] = {}
        self._resolved: dict[int, str] = {}

    def unit(self, index: int, item: str | None) -> str:
        """The unit of the index-th figure, a torque.

        Where it was not said: never the unit that the speaker converts it to in the same breath; else the unit in which the item's torque was
        told before; else that of the figure just said; else the unit in which the speaker thinks: the one declared, or which is said most.
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
        later = self._converted_by.get(index)
        if later is None:
            return None
        said = self._just_said(index) or self._usual
        return said if self._found[later].unit != said else self._second

    def _converting(self, index: int) -> str | None:
        """ "120, which is 88 if yours reads American": a bare figure that says the one before in the other unit."""
        before, figure = _last_before(self._torques, index), self._found[index].figure
        if before is None or figure.start - self._found[before].figure.end > CONVERTED_REACH:
            return None
        start = self._found[before].figure.end
        if not (
            self._talk.cues.has("restates", start, figure.start)
            and self._talk.bare_cues.has("other_unit", start, figure.end + 8)
        ):
            return None
        unit = self._resolved.get(before, self._usual)
        return self._second if unit == self._usual else self._usual

    def _just_said(self, index: int) -> str | None:
        before = _last_before(self._originals, index)
        if before is None or self._found[index].figure.start - self._found[before].figure.end > AT_ONCE:
            return None
        return self._found[before].unit


def _last_before(indices: Sequence[int], index: int) -> int | None:
    """The last of the indices, which are in order, under `index`."""
    i = bisect_left(indices, index)
    return indices[i - 1] if i else None
