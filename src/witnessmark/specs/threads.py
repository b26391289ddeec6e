"""Screw threads and the strength of bolts: ISO metric and Unified inch threads, ISO 898-1 and SAE J429 classes.

Lengths are in mm, areas in mm², stresses in MPa (N/mm²), loads in N, whatever system a thread belongs to.
Geometry is computed from diameter and pitch as the standards define it (ISO 68-1, ISO 724, ISO 898-1, ASME B1.1);
sizes, pitches and strengths stand in `data/fasteners`, each row with its source.
"""

import csv
import math
import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from importlib import resources
from typing import Literal

ThreadSystem = Literal["metric", "inch"]

MM_PER_INCH = 25.4
# The pound-force by definition of pound and standard gravity.
NEWTONS_PER_POUND = 4.4482216152605
_MPA_PER_UNIT = {"MPa": 1.0, "ksi": 1000 * NEWTONS_PER_POUND / MM_PER_INCH**2}

_LEFT_HAND = re.compile(r"[\s-]*(?:left[\s-]*hand(?:ed)?|LH)\s*$", re.IGNORECASE)
_METRIC = re.compile(
    r"M\s*(?P<d>\d+(?:\.\d+)?)(?:\s*(?:[x×*]|by)\s*(?P<p>\d*\.?\d+))?"
    r"(?:\s*[x×*]\s*\d+)?(?:\s*-\s*\d[gh]\w*)?",  # the length and the tolerance class of a full designation
    re.IGNORECASE,
)
_INCH = re.compile(
    r"(?:(?P<number>(?:#|no\.?\s*)\d+|(?:[2-9]|1[0-2])(?=\s*-\s*\d{2}\b))|(?P<inches>1|\d+/[1-9]\d*))\s*(?:in\b\.?|inch\b|\")?"
    r"(?:\s*-\s*(?P<n>\d{1,2}))?(?:\s*(?P<series>UNC|UNF))?"
    r"(?:\s*-\s*\d[AB])?(?:\s*[x×]\s*[\d./ -]+)?",
    re.IGNORECASE,
)


def fastener_rows(name: str) -> list[dict[str, str]]:
    """The rows of `data/fasteners/NAME.csv`, as text by column name. Reads the file at each call: callers cache."""
    table = resources.files("witnessmark").joinpath("data", "fasteners", f"{name}.csv")
    return list(csv.DictReader(table.read_text(encoding="utf-8").splitlines()))


@dataclass(frozen=True, slots=True)
class Thread:
    """One external screw thread of basic form.

    name: as written on a drawing, `M10x1.25`, `3/8-16 UNC`. size: the nominal size alone, `M10`, `3/8`.
    diameter, pitch: mm. source: where the two come from.
    series: coarse or fine (the ISO 262 selection for bolts), other (further ISO 261 pitches: plugs, tubes), UNC or UNF.
    """

    name: str
    size: str
    system: ThreadSystem
    diameter: float
    pitch: float
    series: str
    source: str
    left_hand: bool = False

    @property
    def height(self) -> float:
        """H, height of the fundamental triangle, mm: √3/2 · P (ISO 68-1)."""
        return math.sqrt(3) / 2 * self.pitch

    @property
    def pitch_diameter(self) -> float:
        """d2, mm: d − ¾H (ISO 724, ASME B1.1)."""
        return self.diameter - 0.75 * self.height

    @property
    def minor_diameter(self) -> float:
        """d1 of the bolt and D1 of the nut, mm: d − 5/4 H (ISO 724)."""
        return self.diameter - 1.25 * self.height

    @property
    def root_diameter(self) -> float:
        """d3, mm: d1 − H/6 (ISO 898-1); inch threads d − 3/2 H, the root behind the ASME B1.1 stress area."""
        return self.diameter - (17 / 12 if self.system == "metric" else 1.5) * self.height

    @property
    def stress_diameter(self) -> float:
        """d0, mm: diameter of the circle of the stress area, (d2 + d3)/2."""
        return (self.pitch_diameter + self.root_diameter) / 2

    @property
    def stress_area(self) -> float:
        """As, mm²: π/4 · ((d2 + d3)/2)² (ISO 898-1); inch: π/4 · (D − 0.9743/n)² (ASME B1.1)."""
        return math.pi / 4 * self.stress_diameter**2


@dataclass(frozen=True, slots=True)
class Strength:
    """Least strength of one property class or grade at one diameter. proof, yield_stress, tensile: MPa.

    yield_kind: which yield the figure is: ReL, Rpf, Rp0.2 or yield (SAE).
    """

    grade: str
    system: ThreadSystem
    proof: float
    yield_stress: float
    tensile: float
    yield_kind: str
    source: str


@cache
def all_threads() -> tuple[Thread, ...]:
    """Every thread known, metric first, in order of diameter, coarse before fine."""
    return (*_metric_threads(), *_inch_threads())


def _metric_threads() -> list[Thread]:
    threads = []
    for row in fastener_rows("metric_threads"):
        size = "M" + row["diameter_mm"]
        name = size if row["series"] == "coarse" else f"{size}x{row['pitch_mm']}"
        source = f"{row['standard']}, {row['source']}"
        diameter, pitch = float(row["diameter_mm"]), float(row["pitch_mm"])
        threads.append(Thread(name, size, "metric", diameter, pitch, row["series"], source))
    return threads


def _inch_threads() -> list[Thread]:
    threads = []
    for row in fastener_rows("inch_threads"):
        name = f"{row['size']}-{row['threads_per_inch']} {row['series']}"
        diameter = float(row["diameter_in"]) * MM_PER_INCH
        pitch = MM_PER_INCH / float(row["threads_per_inch"])
        source = f"{row['standard']}, {row['source']}"
        threads.append(Thread(name, row["size"], "inch", diameter, pitch, row["series"], source))
    return threads


def threads_of_size(size: str) -> tuple[Thread, ...]:
    """Every pitch of one nominal size such as `M10`, `3/8` or `#10`, coarse first; empty for an unknown size."""
    return tuple(each for each in all_threads() if each.size == size)


def thread(designation: str) -> Thread:
    """The thread that a designation names.

    Takes `M8`, `M10x1.25`, `M8 x 30` and `M8x1.25x30` (the last number is a length), `M10x1-6g`, `3/8-16`,
    `1/4-28 UNF`, `3/8 UNC`, `#10-24`, `M10 x 1 left-hand`. A size without a pitch is the coarse thread.
    Raises ValueError that names the nearest known threads.
    """
    text = designation.strip()
    left_hand = bool(_LEFT_HAND.search(text))
    text = _LEFT_HAND.sub("", text)
    if match := _METRIC.fullmatch(text):
        found = _find_metric(float(match["d"]), float(match["p"]) if match["p"] else None, designation)
    elif match := _INCH.fullmatch(text):
        found = _find_inch(match, designation)
    else:
        raise ValueError(f"{designation!r} is not a thread; write it like M8, M10x1.25, 3/8-16 or #10-24")
    return replace(found, left_hand=True) if left_hand else found


def _find_metric(diameter: float, pitch: float | None, designation: str) -> Thread:
    candidates = [each for each in all_threads() if each.system == "metric"]
    same = [each for each in candidates if each.diameter == diameter]
    for each in same:
        coarse = each.series == "coarse"
        # ISO 261 has no pitch above the coarse one, so a second number that large is the length of the bolt: M8x30.
        is_length = pitch is not None and coarse and pitch > each.pitch and pitch >= diameter / 2
        if pitch == each.pitch or (coarse and (pitch is None or is_length)):
            return each
    raise ValueError(_unknown(designation, same or candidates, diameter, pitch))


def _find_inch(match: re.Match[str], designation: str) -> Thread:
    number, inches = match["number"], match["inches"]
    size = "#" + re.sub(r"\D", "", number) if number else str(Fraction(inches))
    candidates = [each for each in all_threads() if each.system == "inch"]
    same = [each for each in candidates if each.size == size]
    per_inch, series = match["n"], (match["series"] or "").upper()
    for each in same:
        if (not per_inch or each.name.startswith(f"{size}-{per_inch} ")) and series in ("", each.series):
            return each
    # Number sizes: 0.060 in and 0.013 in for each number (ASME B1.1).
    diameter = (float(Fraction(inches)) if inches else 0.060 + 0.013 * int(size[1:])) * MM_PER_INCH
    pitch = MM_PER_INCH / float(per_inch) if per_inch and int(per_inch) else None
    raise ValueError(_unknown(designation, same or candidates, diameter, pitch))


def _unknown(designation: str, candidates: list[Thread], diameter: float, pitch: float | None) -> str:
    def distance(each: Thread) -> tuple[float, float]:
        return abs(each.diameter - diameter), abs(each.pitch - pitch) if pitch else 0.0

    nearest = sorted(candidates, key=distance)
    return f"unknown thread {designation!r}; nearest known: {', '.join(each.name for each in nearest[:3])}"


def normal_grade(grade: str) -> str:
    """A class or grade as the table names it: `class 10.9`, `grade 10.9` -> `10.9`; `SAE gr. 5`, `5` -> `grade 5`."""
    text = re.sub(r"^(?:(?:property|class|sae|astm|grade|gr\.?)\s*)*", "", " ".join(grade.lower().split()))
    return f"grade {text}" if text.isdecimal() else text.upper()


def strength(grade: str, of: Thread) -> Strength:
    """Least strength of a property class (ISO 898-1) or grade (SAE J429) at the diameter of a thread.

    Raises ValueError where the grade is not known, belongs to the other thread system, or does not reach that diameter.
    """
    wanted = normal_grade(grade)
    for row in _class_rows(of):
        if row["grade"] == wanted:
            scale = _MPA_PER_UNIT[row["unit"]]
            proof, yield_stress, tensile = (float(row[column]) * scale for column in ("proof", "yield", "tensile"))
            return Strength(wanted, of.system, proof, yield_stress, tensile, row["yield_kind"], row["source"])
    raise ValueError(f"no strength of {grade!r} for {of.name}; known: {', '.join(grades(of))}")


def grades(of: Thread) -> tuple[str, ...]:
    """The classes or grades that reach the diameter of a thread, weakest first."""
    return tuple(row["grade"] for row in _class_rows(of))


def _class_rows(of: Thread) -> list[dict[str, str]]:
    return [row for row in _all_class_rows() if row["system"] == of.system and _reaches(row, of.diameter)]


def _reaches(row: dict[str, str], diameter: float) -> bool:
    # 19.05 mm and 3/4 in can differ in the last binary digit.
    return float(row["above_mm"]) + 1e-9 < diameter <= float(row["up_to_mm"]) + 1e-9


@cache
def _all_class_rows() -> tuple[dict[str, str], ...]:
    return tuple(fastener_rows("property_classes"))


def proof_load(grade: str, of: Thread) -> float:
    """Load in N that a bolt must hold without lasting stretch: stress area times proof stress (ISO 898-1, SAE J429)."""
    return of.stress_area * strength(grade, of).proof


def yield_load(grade: str, of: Thread) -> float:
    """Load in N at which a bolt in pure tension yields: stress area times yield strength."""
    return of.stress_area * strength(grade, of).yield_stress
