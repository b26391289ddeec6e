"""The on-screen corrections that findings ask for, in order of time."""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.proof.misheard import NAME as MISHEARD
from witnessmark.proof.model import Finding
from witnessmark.publication.escape import printable
from witnessmark.publication.timed_text import milliseconds

TOLD = frozenset({"hold", "query"})
"""Severities whose cards are worth a viewer's attention."""
PREFIX = "Correction: "


@dataclass(frozen=True, slots=True)
class Correction:
    """A text on the screen. number: from 1, in order of time. start, end: whole milliseconds of the video.

    findings: those that ask for it, the first one first.
    """

    number: int
    start: int
    end: int
    text: str
    findings: tuple[Finding, ...]

    @property
    def matter(self) -> str:
        """The text without the word "Correction"."""
        return self.text.removeprefix(PREFIX)

    @property
    def name(self) -> str:
        """The card's file, below the folder that is published."""
        return f"cards/c{self.number:02d}.png"


def corrections(findings: Sequence[Finding]) -> tuple[Correction, ...]:
    """The corrections of all holds and queries.

    A word that the captions misheard was said rightly and needs none. A settled finding follows its decision: what stays
    as said has no card, another value has its own. Two findings that ask for the same text at the same time share one.
    """
    cards: dict[tuple[int, str], tuple[int, tuple[Finding, ...]]] = {}
    for finding in sorted(findings, key=lambda each: (each.start, each.id)):
        fix = finding.fix
        if finding.severity not in TOLD or finding.check == MISHEARD:
            continue
        if fix is None or not fix.card or fix.card_in is None or fix.card_out is None:
            continue
        start, text = max(0, milliseconds(fix.card_in)), printable(fix.card)
        _, sharing = cards.get((start, text), (0, ()))
        cards[start, text] = max(start + 1, milliseconds(fix.card_out)), (*sharing, finding)
    found = sorted(
        ((start, end, text, sharing) for (start, text), (end, sharing) in cards.items()), key=lambda each: each[:3]
    )
    return tuple(Correction(number, *each) for number, each in enumerate(found, 1))
