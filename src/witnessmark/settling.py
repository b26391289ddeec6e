"""Settling a finding: the project is examined, the finding looked up, the decision written."""

from dataclasses import dataclass
from pathlib import Path

from witnessmark.examination import examine
from witnessmark.proof.deciding import decide
from witnessmark.proof.decisions import add_decision, settled_as
from witnessmark.proof.model import Finding


@dataclass(frozen=True, slots=True)
class Settled:
    """A decision that was written. path: the file it stands in. counts: what holds now, as one line.

    earlier: the number in that file, from 1, and the line of the decision that counted until now; None where none did.
    """

    path: Path
    counts: str
    earlier: tuple[int, str] | None = None


def settle(folder: Path, finding_id: str, decision: str, reason: str = "", value: str = "") -> Settled:
    """Write a decision on one finding of the project in a folder.

    decision: "keep", "manual", "value" or "no mistake". reason: why, needed for "keep" and "no mistake". value: with
    its unit, for "value" alone. Raises InputError where the project cannot be read, there is no such finding, or the
    decision does not go with it.
    """
    examination = examine(folder)
    made = decide(examination.findings, examination.reading.speech, finding_id, decision, reason, value)
    finding = next(each for each in examination.findings if each.id == finding_id)
    return Settled(add_decision(folder, made), settled_as(made), _earlier(finding))


def _earlier(finding: Finding) -> tuple[int, str] | None:
    return (finding.ruling.number, finding.settled or "") if finding.ruling is not None else None
