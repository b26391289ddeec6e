"""Settling a finding: the project is examined, the finding looked up, the decision written."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from witnessmark.examination import examine
from witnessmark.proof.deciding import decide
from witnessmark.proof.decisions import Decision, add_decision, settled_as
from witnessmark.proof.model import Finding
from witnessmark.publication.escape import printable


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
    return Settled(add_decision(folder, made), _counts(finding, made), _earlier(finding))


def settled_lines(finding_id: str, settled: Settled) -> Iterator[str]:
    """What a decision on a finding makes of it, and which earlier decision it takes the place of."""
    yield printable(f"settled {finding_id} in {settled.path}: {settled.counts}")
    if settled.earlier is not None:
        number, counted = settled.earlier
        yield printable(f"it takes the place of decision {number} in that file ({counted}): of two, the last counts")


def _counts(finding: Finding, made: Decision) -> str:
    """What a decision makes count; of the manual's value also which it is and where it stands."""
    if made.decision != "manual" or finding.row is None:
        return settled_as(made)
    # What a former decision put in the manual's place stands as `expected`: then the row alone is told.
    replaced = finding.ruling is not None and finding.ruling.kind == "value"
    value = "" if replaced or not finding.expected else f"{finding.expected} in "
    place = f", {value}{finding.row.file} row {finding.row.row}"
    return f"{settled_as(replace(made, reason=''))}{place}" + (f": {made.reason}" if made.reason else "")


def _earlier(finding: Finding) -> tuple[int, str] | None:
    return (finding.ruling.number, finding.settled or "") if finding.ruling is not None else None
