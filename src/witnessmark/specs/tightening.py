"""Torque and preload of threaded fasteners, and what torque no bolt of a size can take.

A torque wrench sets friction first and preload last. What these relations can tell, and what they cannot:

- Friction alone moves the right torque by a third: an M10 8.8 takes 42 N·m to 90 % of yield at a friction of 0.10
  and 54 N·m at 0.14.
- One thread wears several heads and one head several threads, so a head size never settles which bolt it is.
- Nearness therefore proves nothing: a said torque within a third of a computed one is neither confirmed nor doubted.
- A factor of 8 to 12 does: inch-pounds taken for foot-pounds, kilogram-force metres for newton metres, a lost
  decimal point.

The limits here are built for that use alone. They are not specifications; the workshop manual comes first.

Units: loads N, lengths mm, stresses MPa, torques N·m. Friction coefficients have no unit.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from witnessmark.specs.heads import HeadUse
from witnessmark.specs.threads import Thread, fastener_rows, proof_load, strength, threads_of_size

# From oiled or plated to dry and rough steel on steel (common practice).
LOWEST_FRICTION = 0.08
HIGHEST_FRICTION = 0.20

# Shigley 9e, eq. 8-26: collar mean diameter (d + 1.5 d)/2, where no table row gives the bearing face.
_MEAN_BEARING_RATIO = 1.25
# EN 1665 flange heads bear out to about 2 d (from memory; the flange itself to 2.37 d, as tabulated by bd-warehouse
# 0.4.0) over a hole of 1.1 d, and no ordinary head bears wider.
_WIDEST_BEARING_RATIO = 1.60
# mm. From the 24 mm hexagon of an M16 on, filter caps and plugs share the size at a fifth of the torque (common
# practice).
_LARGEST_PLAIN_BOLT = 16.0
_COS_30 = math.cos(math.radians(30))


@dataclass(frozen=True, slots=True)
class TorqueLimit:
    """A torque and the bolt it was computed for. torque: N·m. friction: used for thread and bearing face alike."""

    torque: float
    thread: Thread
    grade: str
    friction: float


@dataclass(frozen=True, slots=True)
class OtherReading:
    """The same number in another unit. torque: what it would then be, N·m."""

    unit: str
    torque: float


@cache
def _bearing_rows() -> dict[str, float]:
    rows = fastener_rows("bearing_faces")
    return {"M" + row["diameter_mm"]: (float(row["face_mm"]) + float(row["hole_mm"])) / 2 for row in rows}


def mean_bearing_diameter(of: Thread) -> float:
    """D_Km in mm: mean of a plain hexagon head's face (ISO 4014) and its hole (ISO 273); else 1.25 d (Shigley 8-26)."""
    return _bearing_rows().get(of.size, _MEAN_BEARING_RATIO * of.diameter)


def torque_for_preload(
    of: Thread, preload: float, thread_friction: float, bearing_friction: float, bearing_diameter: float | None = None
) -> float:
    """Tightening torque in N·m for a preload in N: T = F [P/2π + µG·d2/(2 cos 30°) + µK·D_Km/2] (VDI 2230, ISO 16047).

    bearing_diameter: D_Km in mm, by default that of a plain hexagon head. Tables round the factors to 0.159 P and
    0.577 d2.
    """
    bearing = mean_bearing_diameter(of) if bearing_diameter is None else bearing_diameter
    in_thread = of.pitch / (2 * math.pi) + thread_friction * of.pitch_diameter / (2 * _COS_30)
    return preload * (in_thread + bearing_friction * bearing / 2) / 1000


def short_torque(factor: float, diameter: float, preload: float) -> float:
    """The short form T = K·d·F, N·m, of diameter in mm and preload in N (Shigley eq. 8-27; JIS B 1083)."""
    return factor * diameter * preload / 1000


def torque_factor(of: Thread, friction: float, bearing_diameter: float | None = None) -> float:
    """K of the short form for one friction in thread and bearing face. The usual 0.20 stands for about 0.15."""
    return torque_for_preload(of, 1.0, friction, friction, bearing_diameter) * 1000 / of.diameter


def preload_at(of: Thread, stress: float, thread_friction: float) -> float:
    """Preload in N at which tension and torsion together reach a stress in MPa.

    F = σ·As / √(1 + 3 [3/2 · d2/d0 · (P/(π d2) + µG/cos 30°)]²) (VDI 2230; the 3/2 takes the section
    as plastic in torsion).
    """
    slope = of.pitch / (math.pi * of.pitch_diameter) + thread_friction / _COS_30
    torsion = 1.5 * of.pitch_diameter / of.stress_diameter * slope
    return stress * of.stress_area / math.sqrt(1 + 3 * torsion**2)


def yield_torque(
    of: Thread, grade: str, friction: float, share: float = 1.0, bearing_diameter: float | None = None
) -> float:
    """Torque in N·m that brings a bolt to a share of its yield while it is tightened (VDI 2230 tables: share = 0.9).

    friction: in thread and bearing face alike. Raises ValueError where the grade does not go with the thread.
    """
    preload = preload_at(of, share * strength(grade, of).yield_stress, friction)
    return torque_for_preload(of, preload, friction, friction, bearing_diameter)


def strongest_grade(of: Thread, drive: str) -> str:
    """The strongest class commonly sold: 12.9; inch hexagon heads grade 8, inch screws of any other drive ASTM A574."""
    if of.system == "metric":
        return "12.9"
    return "grade 8" if drive == "hex head" else "A574"


def most_torque_of(of: Thread, grade: str) -> TorqueLimit:
    """Torque at which a thread of one grade yields at the highest sensible friction, under the widest ordinary head."""
    widest = _WIDEST_BEARING_RATIO * of.diameter
    return TorqueLimit(yield_torque(of, grade, HIGHEST_FRICTION, 1.0, widest), of, grade, HIGHEST_FRICTION)


def most_torque(uses: Iterable[HeadUse]) -> TorqueLimit | None:
    """The torque that no ordinary bolt with such a head takes; None where no use is known.

    Everything is taken in the bolt's favour: the largest thread the head can mean, in its strongest bolt pitch,
    of the strongest common class, at the highest sensible friction, under the widest ordinary bearing face. A
    right value lies inside it, mostly by a factor of two or more.
    """
    limits = [
        most_torque_of(each, strongest_grade(each, use.drive))
        for use in uses
        for each in threads_of_size(use.thread.size)
        if each.series != "other"
    ]
    return max(limits, key=lambda limit: limit.torque, default=None)


def least_torque(uses: Iterable[HeadUse]) -> TorqueLimit | None:
    """A soft lower bound: half the proof load of the weakest class, in the smallest thread a head can mean, well oiled.

    Screws in plastic, clamps and covers rightly take less, so a value under it is a question, and only where the
    joint must hold. None where no use is known, and for heads of M16 and more: caps, cups and plugs wear those too.
    """
    smallest = min((use.thread for use in uses), key=lambda each: each.diameter, default=None)
    if smallest is None or smallest.diameter >= _LARGEST_PLAIN_BOLT:
        return None
    grade = "4.6" if smallest.system == "metric" else "grade 2"
    torque = torque_for_preload(smallest, 0.5 * proof_load(grade, smallest), LOWEST_FRICTION, LOWEST_FRICTION)
    return TorqueLimit(torque, smallest, grade, LOWEST_FRICTION)


def usual_range(uses: Iterable[HeadUse]) -> tuple[float, float] | None:
    """Where torques for a head size usually lie, N·m; None where no use is known.

    From the soft lower bound, 0 where there is none, to 90 % of the yield of 10.9 or grade 8 in the largest thread,
    friction 0.14.
    """
    known = tuple(uses)
    if not known:
        return None
    least = least_torque(known)
    largest = max((use.thread for use in known), key=lambda each: each.diameter)
    most = yield_torque(largest, "10.9" if largest.system == "metric" else "grade 8", 0.14, share=0.9)
    return least.torque if least else 0.0, most


@cache
def _torque_units() -> dict[str, tuple[float, tuple[str, ...]]]:
    rows = fastener_rows("torque_units")
    return {row["unit"]: (float(row["newton_metres"]), tuple(row["confused_with"].split(";"))) for row in rows}


def in_newton_metres(magnitude: float, unit: str) -> float:
    """A torque in N·m. unit: a label of `torque_units.csv`, such as `lbf·ft`. Raises ValueError for any other."""
    if unit not in _torque_units():
        raise ValueError(f"unknown torque unit {unit!r}; known: {', '.join(_torque_units())}")
    return magnitude * _torque_units()[unit][0]


def other_unit(magnitude: float, unit: str, usual: tuple[float, float]) -> tuple[OtherReading, ...]:
    """Which other unit would bring a said number inside the usual range (N·m), commonest mix-up first.

    Works both ways, too large and too small: 71 lbf·ft on a small screw could be lbf·in, 90 lbf·in on a wheel nut
    lbf·ft. Only units that people mix up with the said one count. Empty where none would help, and where the
    number is in range as said.
    """
    low, high = usual
    if low <= in_newton_metres(magnitude, unit) <= high:
        return ()
    readings = (OtherReading(other, in_newton_metres(magnitude, other)) for other in _torque_units()[unit][1])
    return tuple(each for each in readings if low <= each.torque <= high)
