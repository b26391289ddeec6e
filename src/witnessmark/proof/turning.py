"""Steps that tell a turning direction against the thread: printed is what the creator decided, else no direction at all.

A reader who turns a left-hand nut the wrong way tightens what should come loose, until it breaks.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from witnessmark.procedure.model import Procedure, Step
from witnessmark.proof.direction import NAME
from witnessmark.proof.model import Finding

TURN = re.compile(r"\s*\b(anti|counter)?[- ]?clockwise\b")
BEFORE, BEHIND = 2.0, 4.0  # seconds around a step in which its direction is said
LOOK_UP = "The video tells a turning direction against the thread: look it up in the workshop manual."


def with_right_turns(procedure: Procedure, findings: Sequence[Finding]) -> Procedure:
    """The procedure with no direction that is held or doubted. findings: of all checks, decisions applied."""
    steps = list(procedure.steps)
    for finding in findings:
        said = TURN.search(finding.said.lower()) if finding.check == NAME else None
        at = _step(steps, finding.start, bool(said[1])) if said is not None else None
        if at is not None:
            steps[at] = _ruled(steps[at], finding)
    return procedure if tuple(steps) == procedure.steps else replace(procedure, steps=tuple(steps))


def _step(steps: Sequence[Step], time: float, left: bool) -> int | None:
    """The step that tells the direction said at a time. left: it is anticlockwise."""
    for n, step in enumerate(steps):
        told = TURN.search(step.text)
        if told is not None and bool(told[1]) == left and step.start - BEFORE <= time <= step.end + BEHIND:
            return n
    return None


def _ruled(step: Step, finding: Finding) -> Step:
    """A step with the direction decided on, or without one and with a warning."""
    ruling = finding.ruling
    if ruling is not None and ruling.kind in ("keep", "no mistake"):
        return step
    right = ruling.value if ruling is not None and ruling.kind == "value" else finding.expected
    if ruling is not None and right:
        return replace(step, text=TURN.sub(f" {right}", step.text, count=1))
    return replace(step, text=TURN.sub("", step.text, count=1), warnings=(*step.warnings, LOOK_UP))
