"""Settling a finding: the project is examined, the finding looked up, the decision written."""

from pathlib import Path

from witnessmark.examination import examine
from witnessmark.proof.decisions import add_decision, decide


def settle(folder: Path, finding_id: str, decision: str, reason: str = "", value: str = "") -> Path:
    """Write a decision on one finding of the project in a folder; returns the file it stands in.

    decision: "keep", "manual", "value" or "no mistake". reason: why, needed for "keep" and "no mistake". value: with
    its unit, for "value" alone. Raises InputError where the project cannot be read, there is no such finding, or the
    decision does not go with it.
    """
    examination = examine(folder)
    made = decide(examination.findings, examination.reading.speech, finding_id, decision, reason, value)
    return add_decision(folder, made)
