"""What the misheard-word finder gives and what it weighs."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Misheard:
    """One doubtful place of the captions.

    start, end: tokens, end exclusive. heard: what the captions show there. meant: the trade's words. kind: that of the
    term. cost: how far apart the two sound, for each phoneme. why: one plain sentence.
    """

    start: int
    end: int
    heard: str
    meant: str
    kind: str
    cost: float
    why: str


@dataclass(frozen=True, slots=True)
class Candidate:
    """A finding that others may overlap. margin: how well it stands against them."""

    found: Misheard
    margin: float
