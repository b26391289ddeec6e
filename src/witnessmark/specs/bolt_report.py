"""What one bolt can take, worked out for reading: the rows behind `witnessmark bolt`.

From a thread, or from the size of a head and every thread it can mean. Nothing here is a specification.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from witnessmark.specs.heads import Drive, HeadUse, threads_of
from witnessmark.specs.threads import NEWTONS_PER_POUND, Thread, proof_load, strength, thread, yield_load
from witnessmark.specs.tightening import (
    HIGHEST_FRICTION,
    LOWEST_FRICTION,
    OtherReading,
    TorqueLimit,
    in_newton_metres,
    least_torque,
    most_torque,
    most_torque_of,
    other_unit,
    torque_factor,
    torque_for_preload,
    usual_range,
    yield_torque,
)

Verdict = Literal["past the limit", "past this grade", "far under", "possible"]

FRICTIONS = (LOWEST_FRICTION, 0.12, 0.14, HIGHEST_FRICTION)
ASSUMED_GRADE = {"metric": "8.8", "inch": "grade 5"}
CAUTION = (
    "These figures come from general mechanics, not from the maker of the machine: they are not specifications. The "
    "workshop manual, local rules and licensed practice come first. A torque that is possible here can still be wrong."
)
_RELATION = "VDI 2230 and ISO 16047 relation, plain hexagon head"


@dataclass(frozen=True, slots=True)
class HeadSize:
    """What a spanner, key or bit says. size: mm or inches across flats, or the number of a T, E, PH or PZ size."""

    system: str
    size: Decimal
    drive: Drive | None = None

    def __str__(self) -> str:
        return (
            f"{self.size} {self.system} {self.drive or 'head'}"
            if self.system in ("mm", "in")
            else f"{self.system}{self.size}"
        )


@dataclass(frozen=True, slots=True)
class Row:
    """One printed line. value: number with unit. source: the standard or table behind it."""

    label: str
    value: str
    source: str


@dataclass(frozen=True, slots=True)
class ThreadSection:
    """The rows of one thread in one grade. assumed: the grade was not given."""

    thread: Thread
    grade: str
    assumed: bool
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class SaidTorque:
    """What mechanics says of a said torque. torque: N·m. readings: units in which the same number would be usual."""

    torque: float
    verdict: Verdict
    message: str
    readings: tuple[OtherReading, ...]


@dataclass(frozen=True, slots=True)
class BoltReport:
    """Everything `witnessmark bolt` prints, in order. meanings: what a head size can mean; empty for a thread."""

    title: str
    meanings: tuple[Row, ...]
    sections: tuple[ThreadSection, ...]
    said: SaidTorque | None
    caution: str = CAUTION


def bolt_report(
    bolt: str | HeadSize,
    grade: str | None = None,
    frictions: Sequence[float] = FRICTIONS,
    said: tuple[float, str] | None = None,
) -> BoltReport:
    """The report on a thread (`M10x1.25`, `3/8-16`) or on a head size.

    grade: a class or grade; by default 8.8 or grade 5, marked as assumed. frictions: coefficients between 0 and 1, each
    taken in thread and bearing face alike. said: a torque to judge, magnitude and unit label (`lbf·ft`).
    Raises ValueError for an unknown thread, head, grade or unit, and for a friction or torque out of range.
    """
    if not all(0 < friction < 1 for friction in frictions):
        raise ValueError("a friction coefficient lies between 0 and 1, mostly from 0.08 to 0.20")
    uses = _uses(bolt)
    threads = tuple(dict.fromkeys(use.thread for use in uses))
    sections = _sections(threads, grade, frictions)
    meanings = (
        tuple(Row(use.thread.name, use.standard, use.source) for use in uses) if isinstance(bolt, HeadSize) else ()
    )
    title = str(bolt) if isinstance(bolt, HeadSize) else threads[0].name + " left-hand" * threads[0].left_hand
    return BoltReport(title, meanings, sections, _judge(said, uses, sections) if said else None)


def _uses(bolt: str | HeadSize) -> tuple[HeadUse, ...]:
    if isinstance(bolt, str):
        return (HeadUse(thread(bolt), "any", "as given", "as given"),)
    uses = threads_of(bolt.system, bolt.size, bolt.drive)
    if not uses:
        raise ValueError(f"no thread is known to have a {bolt}; name the thread instead, such as M8 or 3/8-16")
    return uses


def _sections(threads: Sequence[Thread], grade: str | None, frictions: Sequence[float]) -> tuple[ThreadSection, ...]:
    """One section a thread. A recess can fit metric and inch screws: a grade then speaks for its own system."""
    sections, refusals = [], []
    for each in threads:
        try:
            found = strength(grade or ASSUMED_GRADE[each.system], each)
        except ValueError as refusal:
            refusals.append(refusal)
        else:
            sections.append(ThreadSection(each, found.grade, grade is None, _rows(each, found.grade, frictions)))
    if not sections:
        raise refusals[0]
    return tuple(sections)


def _rows(of: Thread, grade: str, frictions: Sequence[float]) -> tuple[Row, ...]:
    found = strength(grade, of)
    area = "ISO 898-1 formula" if of.system == "metric" else "ASME B1.1 formula"
    rows = [
        Row("diameter and pitch", f"{printed(of.diameter)} mm, {printed(of.pitch)} mm", of.source),
        Row("stress area", f"{printed(of.stress_area)} mm²", area),
        Row(
            "proof, yield and tensile strength", _stresses(found.proof, found.yield_stress, found.tensile), found.source
        ),
        Row("proof load", _load(proof_load(grade, of)), found.source),
        Row("yield load", _load(yield_load(grade, of)), found.source),
    ]
    for friction in frictions:
        at_proof = torque_for_preload(of, 0.75 * proof_load(grade, of), friction, friction)
        rows += [
            Row(f"friction {friction:.2f}: factor K", f"{torque_factor(of, friction):.3f}", _RELATION),
            Row(f"friction {friction:.2f}: torque at 75 % of proof load", _torque(at_proof), _RELATION),
            Row(
                f"friction {friction:.2f}: torque at 90 % of yield",
                _torque(yield_torque(of, grade, friction, 0.9)),
                _RELATION,
            ),
            Row(f"friction {friction:.2f}: torque at yield", _torque(yield_torque(of, grade, friction)), _RELATION),
        ]
    return tuple(rows)


def _judge(said: tuple[float, str], uses: Sequence[HeadUse], sections: Sequence[ThreadSection]) -> SaidTorque:
    magnitude, unit = said
    torque = in_newton_metres(magnitude, unit)
    limit, least, usual = most_torque(uses), least_torque(uses), usual_range(uses)
    if not 0 < magnitude < math.inf or limit is None or usual is None:
        raise ValueError(f"{magnitude:g} {unit} is not a torque to tighten to")
    of_grade = max((most_torque_of(each.thread, each.grade) for each in sections), key=lambda each: each.torque)
    given = _amount(magnitude, unit)
    if torque > limit.torque:
        verdict: Verdict = "past the limit"
        message = f"{given} is {_past(limit)}: no common bolt of this size takes it."
    elif torque > of_grade.torque and not sections[0].assumed:
        verdict, message = "past this grade", f"{given} is {_past(of_grade)}."
    elif least is not None and torque < least.torque:
        verdict = "far under"
        message = (
            f"{given} is far under what holds such a joint; right only for a soft one (plastic, a clamp, a cover)."
        )
    else:
        return SaidTorque(torque, "possible", f"{given} is possible for such a bolt, which does not make it right.", ())
    readings = other_unit(magnitude, unit, usual)
    others = " or ".join(_amount(magnitude, each.unit) for each in readings)
    return SaidTorque(torque, verdict, f"{message} Usual would be {others}." if others else message, readings)


def _amount(magnitude: float, unit: str) -> str:
    return f"{magnitude:g} {unit}" + ("" if unit == "N·m" else f" ({printed(in_newton_metres(magnitude, unit))} N·m)")


def _past(limit: TorqueLimit) -> str:
    bolt = f"{limit.thread.name} of {'class ' if limit.thread.system == 'metric' else ''}{limit.grade}"
    return f"past {printed(limit.torque)} N·m, where {bolt} yields even at a friction of {limit.friction:.2f}"


def printed(number: float) -> str:
    """A number to three significant digits, never as a power of ten: 36.6, 0.943, 21200."""
    digits = Decimal(f"{number:.2e}")
    return f"{digits.normalize():f}"


def _torque(newton_metres: float) -> str:
    return f"{printed(newton_metres)} N·m ({printed(newton_metres / in_newton_metres(1, 'lbf·ft'))} lbf·ft)"


def _load(newtons: float) -> str:
    return f"{printed(newtons / 1000)} kN ({printed(newtons / NEWTONS_PER_POUND)} lbf)"


def _stresses(*megapascals: float) -> str:
    return ", ".join(printed(each) for each in megapascals) + " MPa"
