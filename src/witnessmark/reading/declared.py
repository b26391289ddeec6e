"""The unit of torque that a speaker says once for the whole recording: "everything I say today is inch pounds"."""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.language.unit_words import UnitWord
from witnessmark.reading.figures import Talk

BEFORE, BEHIND = 16, 6  # tokens from the words that declare to the unit: "when I say a number and nothing after it ..."


@dataclass(frozen=True, slots=True)
class Declared:
    """A unit, and the token from which on figures without one are in it."""

    unit: str
    since: int


def declared_unit(talk: Talk, apart: Sequence[UnitWord]) -> Declared | None:
    """The unit declared; None where none is, or where more than one is. apart: torque units said without a figure."""
    found: dict[str, int] = {}
    for start, end in talk.bare_cues.between("declares", 0, len(talk.texts)):
        near = [u for u in apart if start - BEHIND <= u.start < end + BEFORE]
        if near:
            nearest = min(near, key=lambda u: abs(u.start - end))
            found.setdefault(nearest.labels[0], max(end, nearest.end))
    return Declared(*next(iter(found.items()))) if len(found) == 1 else None
