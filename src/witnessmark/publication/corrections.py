"""On-screen corrections: what is to be cut into the video, and when."""

from collections.abc import Sequence
from dataclasses import dataclass

from witnessmark.proof.model import Finding
from witnessmark.publication.escape import printable

PREFIX = "Correction: "


@dataclass(frozen=True, slots=True)
class Correction:
    """One card. number: from 1, in order of time. start, end: seconds of the video. text: without the word "Correction"."""

    number: int
    text: str
    start: float
    end: float
    finding: str

    @property
    def name(self) -> str:
        """The card's file, below the folder that is published."""
        return f"cards/c{self.number:02d}.png"


def corrections(findings: Sequence[Finding]) -> tuple[Correction, ...]:
    """The cards of all findings that ask for one, each once: a finding kept as said asks for none any more."""
    found: dict[tuple[float, str], tuple[float, str]] = {}
    for finding in findings:
        fix = finding.fix
        if fix and fix.card and fix.card_in is not None and fix.card_out is not None:
            text = printable(fix.card).removeprefix(PREFIX)
            found.setdefault((max(0.0, fix.card_in), text), (fix.card_out, finding.id))
    return tuple(
        Correction(number, text, start, end, finding)
        for number, ((start, text), (end, finding)) in enumerate(sorted(found.items()), 1)
    )
